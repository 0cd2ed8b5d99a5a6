"""A reading cannot occur on its measure.

What: a client's number lies outside the measure's range or between its steps, or the reading is of another
kind than the measure (a word for a number, several readings for a yes or no).

Why: a reading that the instrument cannot show is a slip, and the rules say nothing about it.

Example:

    readings: {ankle_dorsiflexion: 31.5}     # recorded in steps of 1

Cure: correct the reading, or the measure's `from`, `to` and `step`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from builder.course import ChoiceScale, Measure, NumberScale, Origin, Reading, YesNoScale
from builder.decide.grid import on_grid
from builder.words import ENGLISH
from builder.words.numbers import number, quantity

from ..scope import Fault, Scope, listed
from .measure_range import is_grid

CODE = "reading-invalid"


def check(scope: Scope) -> Iterator[Fault]:
    measures = scope.course.measures
    for case in scope.course.cases.values():
        subject = f"case:{case.name}"
        yield from _readings(measures, case.readings, case.origin.below("readings"), subject)
        if case.retest is not None:
            origin = case.origin.below("retest", "readings")
            yield from _readings(measures, case.retest.readings, origin, subject)


def _readings(
    measures: Mapping[str, Measure], readings: Mapping[str, Reading], origin: Origin, subject: str
) -> Iterator[Fault]:
    for name, reading in readings.items():
        if name in measures and not measures[name].of_client:
            yield from _reading(measures[name], reading, origin, subject)


def _reading(measure: Measure, reading: Reading, origin: Origin, subject: str) -> Iterator[Fault]:
    at, name = origin.at, measure.name
    match measure.scale:
        case NumberScale() as scale if is_grid(scale):
            for place, trial in enumerate(reading.trials):
                if not on_grid(measure, trial):
                    message = f"`{name}` cannot read {number(ENGLISH, trial)}."
                    yield Fault(at(name, place), subject, message, _grid_hint(scale, trial))
            if not reading.trials:
                hint = "Write a number, or a list of numbers, one a trial."
                yield Fault(at(name), subject, f"The reading of `{name}` is not a number.", hint)
        case ChoiceScale(values=values):
            if not isinstance(reading.finding, str):
                message = f"The reading of `{name}` is none of its values."
                yield Fault(at(name), subject, message, f"Choose from: {listed(values)}.")
        case YesNoScale():
            if not isinstance(reading.finding, bool):
                message = f"The reading of `{name}` is not a yes or no."
                yield Fault(at(name), subject, message, "Write `true` or `false`.")


def _grid_hint(scale: NumberScale, trial: Fraction) -> str:
    grid = (
        f"It runs from {number(ENGLISH, scale.start)} to {quantity(ENGLISH, scale.stop, scale.unit)} "
        f"in steps of {number(ENGLISH, scale.step)}."
    )
    if not scale.start < trial < scale.stop:
        return grid
    below = scale.start + (trial - scale.start) // scale.step * scale.step
    return f"{grid} Nearest: {number(ENGLISH, below)} and {number(ENGLISH, below + scale.step)}."
