"""Asks for the phases of a drill in order.

The order is that of the drill; the explanation gives the first cue of each phase. There is no question about
a drill of fewer than three phases, nor one in which two phases read the same.

Example: `{id: g-order, family: sequence, drill: slow_squat, objective: coach-squat}` asks "Slow squat: put
its phases in order."
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Family

from ..corrections import folded
from ..frame import Answer, Draft, DrillFacts, Frame, Says

FEWEST = 3


def drafts(family: Family, about: DrillFacts) -> Iterator[Draft]:
    drill = about.drill
    labels = tuple(phase.label for phase in drill.phases)
    if len(labels) < FEWEST or len({folded(label) for label in labels}) < len(labels):
        return
    yield Draft(
        of=drill.name,
        stem=about.wording.text("sequence-stem", drill=drill.title),
        right=Answer(labels, ""),
        wrong=(),
        why="\n".join(
            f"{number}. {phase.label}: {phase.cues[0]}" for number, phase in enumerate(drill.phases, 1)
        ),
        learnt=f"order:{drill.name}",
        steps=labels,
        source=drill.source,
        drill=drill.name,
    )


def holds(family: Family, about: DrillFacts, says: Says) -> bool:
    return says == tuple(phase.label for phase in about.drill.phases)


FRAME = Frame(("drill",), drafts, holds)
