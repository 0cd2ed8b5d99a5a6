"""Whether a re-test differs from the first test by more than measurement error.

The difference of two recorded values has the standard error `sem * sqrt(1/n1 + 1/n2)`; 1.96 times that is
the minimal detectable change at 95 %. For one trial each it is `1.96 * sqrt(2) * sem`, the minimal difference
of Weir 2005, J Strength Cond Res 19(1):231-240.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from builder.course import Caution, Course, Measure, NumberScale

from .doubt import QUANTILE, exceeds_error, variance
from .evaluate import decide, met
from .found import Found, Recorded
from .grid import Value


@dataclass(frozen=True, slots=True)
class Difference:
    """One measure at the first test and at the re-test."""

    measure: str
    first: Value
    second: Value
    differs: bool
    """Numbers: by more than measurement error. Others: at all."""
    change: Fraction | None = None
    """Numbers: the second recorded value less the first, in the measure's unit."""
    error: float | None = None
    """Numbers: the standard error of the change, in the measure's unit."""
    detectable: float | None = None
    """Numbers: the minimal detectable change at 95 %, in the measure's unit."""
    better: bool | None = None
    """Numbers that differ: whether in the direction that counts as improvement, where the measure names
    one."""


@dataclass(frozen=True, slots=True)
class Turn:
    """A table's outcome with the first readings, and with those of the re-test put in their place."""

    table: str
    first: str | None
    second: str | None


@dataclass(frozen=True, slots=True)
class Retested:
    differences: tuple[Difference, ...]
    """For every measure read at both tests, in the order of the course."""
    turns: tuple[Turn, ...]
    """For every table in pathway order, changed or not."""
    newly_met: tuple[Caution, ...]
    """The cautions that are met only with the readings of the re-test, by name."""


def change_error(scale: NumberScale, first: int, second: int) -> float:
    """Standard error of the difference of two recorded values of `first` and `second` trials, in the
    measure's unit. Where averaging does not shrink the error (`sem_of: session`) each test counts as one
    trial."""
    return math.sqrt(variance(scale, first) + variance(scale, second))


def detectable_change(scale: NumberScale, first: int, second: int) -> float:
    """Minimal detectable change at 95 % between two recorded values, in the measure's unit."""
    return float(QUANTILE) * change_error(scale, first, second)


def retest(course: Course, first: Found, again: Found) -> Retested:
    """What a re-test shows, from what was found at each test."""
    both = [name for name in first.recorded if name in again.recorded]
    now = first.renewed(again)
    before, after = decide(course, first), decide(course, now)
    met_before = met(course, first)
    return Retested(
        tuple(difference(course.measures[name], first.recorded[name], again.recorded[name]) for name in both),
        tuple(Turn(name, before[name].outcome, after[name].outcome) for name in before),
        tuple(caution for caution in met(course, now) if caution not in met_before),
    )


def difference(measure: Measure, first: Recorded, second: Recorded) -> Difference:
    """A measure's difference between two tests."""
    scale, was, now = measure.scale, first.value, second.value
    if not isinstance(scale, NumberScale):
        return Difference(measure.name, was, now, was != now)
    assert isinstance(was, Fraction)
    assert isinstance(now, Fraction)
    change = now - was
    counts = first.trials, second.trials
    differs = exceeds_error(change, variance(scale, first.trials) + variance(scale, second.trials))
    return Difference(
        measure.name,
        was,
        now,
        differs,
        change,
        change_error(scale, *counts),
        detectable_change(scale, *counts),
        (change > 0) == (scale.better == "higher") if differs and scale.better else None,
    )
