"""Decision trees that a learner walks for a client: keys, graph facts, best path, marking."""

from .bind import PATHWAY, bind_walk, objective_of, pathway_exercise
from .fault_finding import fault_walk
from .graph import GraphFacts, facts
from .marking import StepMark, WalkMark, follow
from .page_data import walk_data
from .walk import Walk, WalkOption, WalkStep

__all__ = [
    "PATHWAY",
    "GraphFacts",
    "StepMark",
    "Walk",
    "WalkMark",
    "WalkOption",
    "WalkStep",
    "bind_walk",
    "facts",
    "fault_walk",
    "follow",
    "objective_of",
    "pathway_exercise",
    "walk_data",
]
