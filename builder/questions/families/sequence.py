"""Asks for the phases of a drill in order.

The order is that of the drill; the explanation gives the first cue of each phase. There is no question about
a drill of fewer than three phases, nor one in which two phases read the same.

Example: `{id: g-order, family: sequence, drill: slow_squat, objective: coach-squat}` asks "Slow squat: put
its phases in order."
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.course import Course, Drill, Family, Question
from builder.words import Words

from ..corrections import folded
from ..item import Item
from ..written import item_of

FEWEST = 3


def write(family: Family, course: Course, drill: Drill, words: Words) -> Iterator[Item]:
    labels = tuple(phase.label for phase in drill.phases)
    if len(labels) < FEWEST or len({folded(label) for label in labels}) < len(labels):
        return
    question = Question(
        id=f"{family.id}.{drill.name}",
        kind="order",
        objective=family.objective,
        stem=words.say("{drill}: put its phases in order.", drill=drill.title),
        items=labels,
        why="\n".join(
            f"{number}. {phase.label}: {phase.cues[0]}" for number, phase in enumerate(drill.phases, 1)
        ),
        source=drill.source,
    )
    yield replace(item_of(question), family=family.id, drill=drill.name, learnt=f"order:{drill.name}")
