"""A measure cannot be drawn as it says.

What: `drawn` names a joint that its position does not bend; or a measure that is drawn as a joint or as ribs
has another unit than degrees.

Why: the drawing shows the reading as an angle of the body. Where the position keeps the joint straight nobody
would look for an angle there, and a length cannot be an angle.

Example:

    leg_raise: {label: Straight leg raise, kind: number, unit: cm, ..., drawn: {figure: ribs}}

Cure: name a joint that stands in the position's `joints`, or write the unit as `deg`. What is no angle can be
drawn as a `dial`.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Course, Measure, NumberScale
from builder.words.numbers import ANGLES

from ..scope import Fault, Scope, listed

CODE = "drawn-broken"


def check(scope: Scope) -> Iterator[Fault]:
    for measure in scope.course.measures.values():
        if isinstance(measure.scale, NumberScale):
            yield from _drawn(scope.course, measure, measure.scale)


def _drawn(course: Course, measure: Measure, scale: NumberScale) -> Iterator[Fault]:
    drawn, subject = scale.drawn, f"measure:{measure.name}"
    if drawn is None:
        return
    if drawn.figure != "dial" and scale.unit not in ANGLES:
        what = "a joint" if drawn.figure == "joint" else "the angle between the ribs"
        message = f"{measure.name} is drawn as {what}, and its unit is `{scale.unit}`, which is no angle."
        hint = "Write the unit as `deg`, or draw a `dial`."
        yield Fault(drawn.origin.at("figure"), subject, message, hint)
    position = course.positions.get(drawn.position or "")
    if position is not None and drawn.joint not in position.joints:
        message = f"{measure.name} is drawn at the {drawn.joint}, which {position.name} does not bend."
        hint = f"Choose from: {listed(position.joints)}."
        yield Fault(drawn.origin.at("joint"), subject, message, hint)
