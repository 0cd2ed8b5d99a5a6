"""A measure's numbers do not make a grid.

What: `to` is not above `from`, or no whole number of steps leads from `from` to `to`, or a reference band
ends below its start; or the course's `ages` run downwards.

Why: every proof runs over the values that can be recorded, so the builder must know exactly which they are.

Example:

    ankle_dorsiflexion: {label: Dorsiflexion, kind: number, unit: deg, from: 0, to: 60, step: 7, sem: 2}

Cure: choose `to` so that it is `from` plus a whole number of steps.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Measure, NumberScale
from builder.words import ENGLISH
from builder.words.numbers import number

from ..scope import Fault, Scope

CODE = "measure-range"


def check(scope: Scope) -> Iterator[Fault]:
    about = scope.course.about
    if about.ages[1] < about.ages[0]:
        message = f"The ages run from {about.ages[0]} to {about.ages[1]}, which is not upwards."
        yield Fault(about.origin.at("ages"), f"course:{about.name}", message, "Write the youngest first.")
    for measure in scope.course.measures.values():
        if isinstance(measure.scale, NumberScale) and not measure.of_client:
            yield from _number(measure, measure.scale)


def is_grid(scale: NumberScale) -> bool:
    """Whether a whole number of steps leads from the start up to the end."""
    return scale.stop > scale.start and scale.step > 0 and (scale.stop - scale.start) % scale.step == 0


def _number(measure: Measure, scale: NumberScale) -> Iterator[Fault]:
    at, subject = measure.origin.at, f"measure:{measure.name}"
    low, high, step = number(ENGLISH, scale.start), number(ENGLISH, scale.stop), number(ENGLISH, scale.step)
    if scale.stop <= scale.start:
        message = f"`{measure.name}` runs from {low} to {high}, which is not upwards."
        yield Fault(at("to"), subject, message, "`to` must be above `from`.")
    elif not is_grid(scale):
        last = scale.start + (scale.stop - scale.start) // scale.step * scale.step
        message = f"Steps of {step} from {low} do not come to {high} in `{measure.name}`."
        near = f"The nearest ends are {number(ENGLISH, last)} and {number(ENGLISH, last + scale.step)}."
        yield Fault(at("to"), subject, message, near)
    for place, band in enumerate(scale.reference):
        if band.high < band.low:
            message = f"The reference band for {band.who} in `{measure.name}` ends below its start."
            hint = "`low` must not be above `high`."
            yield Fault(at("reference", place, "high"), subject, message, hint)
