"""What the drawing of a question shows: names and numbers, from which the site draws it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from builder.course import Course, Drill, DrillFault, NumberScale, Phase, seen


@dataclass(frozen=True, slots=True)
class LookFigure:
    """A phase of a drill, in the drill's position."""

    drill: str
    phase: str
    fault: str | None = None
    """The fault that is seen; None where the phase goes well."""


@dataclass(frozen=True, slots=True)
class ReadingFigure:
    """One trial of a measure."""

    measure: str
    value: Fraction


Figure = LookFigure | ReadingFigure


def phase_of(drill: Drill, figure: LookFigure) -> tuple[Phase, DrillFault | None]:
    """The phase that a figure shows, and the fault in it."""
    phase = next(one for one in drill.phases if one.id == figure.phase)
    return phase, next((one for one in phase.faults if one.id == figure.fault), None)


def drawn_from(course: Course, figure: Figure) -> object:
    """All that the drawing is made from, so that it is known whether learners still see the same."""
    if isinstance(figure, LookFigure):
        drill = course.drills[figure.drill]
        phase, fault = phase_of(drill, figure)
        return [
            _position(course, drill.position),
            seen(phase, fault),
            figure.drill,
            figure.phase,
            figure.fault,
        ]
    scale = course.measures[figure.measure].scale
    assert isinstance(scale, NumberScale)
    drawn = scale.drawn
    how = [drawn.figure, _position(course, drawn.position), drawn.joint] if drawn else None
    return [how, figure.measure, figure.value, scale.unit, scale.start, scale.stop]


def _position(course: Course, name: str | None) -> object:
    position = course.positions.get(name or "")
    if position is None:
        return None
    return [name, position.seen, position.trunk, position.joints, position.rests_on, position.under]
