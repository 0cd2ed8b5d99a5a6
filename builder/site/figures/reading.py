"""A reading as a picture: a joint at its angle, the lower ribs from the front, a hand on a dial.

Without the number, so that one's own eye can read it off; with an arc and the number where it is told.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from markupsafe import Markup

from builder.course import Course, Measure, NumberScale, Position
from builder.words import Words
from builder.words.numbers import quantity

from .body import draw_joint
from .front import draw_ribs
from .sheet import Sheet


def draw_trials(
    words: Words, course: Course, measure: Measure, values: Sequence[Fraction], name: str
) -> Markup:
    """Each of some trials by itself, without its number; `name` is that of the client, once on a page."""
    pictures = [
        draw_reading(words, course, measure, one, shared=(f"{name}-{measure.name}", place > 0))
        for place, one in enumerate(values)
    ]
    return Markup().join(pictures)


def draw_reading(
    words: Words,
    course: Course,
    measure: Measure,
    value: Fraction,
    told: bool = False,
    shared: tuple[str, bool] = ("", False),
) -> Markup:
    """One trial of a measure that says how it is `drawn`; nothing for any other. Where it is not `told`,
    neither the picture nor its text alternative holds the number. `shared`: what the part is called that is
    alike in several, and whether another picture has drawn it."""
    scale = measure.scale
    if not isinstance(scale, NumberScale) or scale.drawn is None:
        return Markup()
    number = quantity(words, value, scale.unit) if told else ""
    title = words.say("{measure}: {value}", measure=measure.label, value=number) if told else measure.label
    match scale.drawn.figure:
        case "ribs":
            said = words.say(
                "The lower ribs from the front: two edges that part downwards from the breastbone."
            )
            return draw_ribs(float(value), title, said, number, *shared)
        case "joint":
            position = course.positions.get(scale.drawn.position or "")
            if position is None or scale.drawn.joint is None:
                return Markup()
            joints = {**position.joints, scale.drawn.joint: value}
            moved: Position = replace(position, joints=joints, shows=(scale.drawn.joint,))
            return draw_joint(words, moved, title, number)
        case "dial":
            return _dial(words, scale, value, title, number)


_SWEEP = 270.0
"""Degrees that a dial's hand goes from the lowest to the highest value."""
_RADIUS = 60.0


def _dial(words: Words, scale: NumberScale, value: Fraction, title: str, number: str) -> Markup:
    sheet = Sheet()
    sheet.dot("dial", (0, 0), _RADIUS)
    step = _tick(scale)
    count = int((scale.stop - scale.start) / step)
    for place in range(count + 1):
        at_value = scale.start + place * step
        way = _way(scale, at_value)
        is_long = place % 5 == 0
        sheet.line("tick", _on(way, _RADIUS - (12 if is_long else 7)), _on(way, _RADIUS - 2))
        if is_long:
            x, y = _on(way, _RADIUS - 21)
            sheet.label("mark", quantity(words, at_value, ""), (x, y))
    sheet.line("needle", (0, 0), _on(_way(scale, value), _RADIUS - 9))
    sheet.dot("eye", (0, 0), 4)
    sheet.label("mark", scale.unit, (0, -_RADIUS * 0.45))
    if number:
        sheet.label("degrees", number, (0, -_RADIUS - 12))
    said = words.say("A round dial with one hand.")
    return sheet.drawing(title, said)


def _tick(scale: NumberScale) -> Fraction:
    """From one stroke to the next: 1, 2 or 5 times a power of ten, so that there are at most 60 strokes."""
    span = scale.stop - scale.start
    power = Fraction(10) ** (math.floor(math.log10(span)) - 2)
    ladder = (power * factor * ten for ten in (1, 10, 100) for factor in (1, 2, 5))
    return next(one for one in ladder if one >= scale.step and span / one <= 60)


def _way(scale: NumberScale, value: Fraction) -> float:
    share = float((value - scale.start) / (scale.stop - scale.start))
    return 90 + _SWEEP / 2 - _SWEEP * share


def _on(way: float, radius: float) -> tuple[float, float]:
    return radius * math.cos(math.radians(way)), radius * math.sin(math.radians(way))
