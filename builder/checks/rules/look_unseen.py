"""Something is to be seen of which nothing is drawn.

What: a drill says how it `looks` or what a fault `shows`, and has no `position`; a family `look` asks about
a drill of which nothing is drawn; or a family `read_off` asks about a measure that is not `drawn`.

Why: the figure of a drill is drawn in its position, and without a drawing there is nothing to ask about:
such a family comes to no question.

Example:

    drill: slow_squat
    phases: [{id: lower, label: Go down, cues: [Slowly], looks: {breath: slow}}]        # in what position?

Cure: give the drill a `position`, say what its phases look like and what its faults show, or say how the
measure is `drawn`.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Course, Drill, Family, Measure, NumberScale, Origin

from ..scope import Fault, Scope

CODE = "look-unseen"


def check(scope: Scope) -> Iterator[Fault]:
    for drill in scope.course.drills.values():
        first = next(_said(drill), None)
        if first is not None and drill.position is None:
            message = f"{drill.name} says what is seen, and has no position to draw it in."
            yield Fault(first[0].at(first[1]), f"drill:{drill.name}", message, "Add its `position`.")
    for family in scope.course.questions.values():
        if isinstance(family, Family):
            yield from _asked(scope.course, family)


def _said(drill: Drill) -> Iterator[tuple[Origin, str]]:
    """Where it stands what is seen."""
    for phase in drill.phases:
        if phase.looks:
            yield phase.origin, "looks"
        yield from ((fault.origin, "shows") for fault in phase.faults if fault.shows)


def _asked(course: Course, family: Family) -> Iterator[Fault]:
    drill, measure = course.drills.get(family.drill or ""), course.measures.get(family.measure or "")
    if family.family == "look" and drill is not None and next(_said(drill), None) is None:
        message = f"{family.id} asks what is seen in {drill.name}, and nothing of it is drawn."
        hint = "Say in the drill how a phase `looks`, and what a fault `shows`."
        yield Fault(family.origin.at("drill"), f"question:{family.id}", message, hint)
    if family.family == "read_off" and measure is not None and not _is_drawn(measure):
        message = f"{family.id} asks for the number in a drawing, and {measure.name} is not drawn."
        hint = "Say in measures.yml how it is `drawn`; only numbers can be."
        yield Fault(family.origin.at("measure"), f"question:{family.id}", message, hint)


def _is_drawn(measure: Measure) -> bool:
    return isinstance(measure.scale, NumberScale) and measure.scale.drawn is not None
