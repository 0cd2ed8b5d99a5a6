"""Whether a re-test differs from the first test by more than measurement error.

The difference of two recorded values has the standard error `sem * sqrt(1/n1 + 1/n2)`; 1.96 times that is
the minimal detectable change at 95 %. For one trial each it is `1.96 * sqrt(2) * sem`, the minimal difference
of Weir 2005, J Strength Cond Res 19(1):231-240.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from builder.course import Case, Course, NumberScale, Reading

from . import grid
from .doubt import QUANTILE
from .evaluate import decide
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


def change_error(scale: NumberScale, first: int, second: int) -> float:
    """Standard error of the difference of two recorded values of `first` and `second` trials, in the
    measure's unit. Where averaging does not shrink the error (`sem_of: session`) each test counts as one
    trial."""
    return float(scale.sem) * math.sqrt(_shares(scale, first, second))


def detectable_change(scale: NumberScale, first: int, second: int) -> float:
    """Minimal detectable change at 95 % between two recorded values, in the measure's unit."""
    return float(QUANTILE) * change_error(scale, first, second)


def retest(course: Course, case: Case) -> Retested | None:
    """What a client's re-test shows; None where there is none. Readings that cannot be are left out."""
    if case.retest is None:
        return None
    again = case.retest.readings
    compared = (
        difference(course, name, case.readings[name], again[name])
        for name in course.measures
        if name in case.readings and name in again
    )
    first = decide(course, case.readings)
    second = decide(course, {**case.readings, **again})
    turns = tuple(Turn(name, first[name].outcome, second[name].outcome) for name in first)
    return Retested(tuple(one for one in compared if one is not None), turns)


def difference(course: Course, name: str, first: Reading, second: Reading) -> Difference | None:
    """A measure's difference between two tests; None where a reading cannot be."""
    measure = course.measures[name]
    scale = measure.scale
    was, now = grid.recorded(measure, first), grid.recorded(measure, second)
    if was is None or now is None:
        return None
    if not isinstance(scale, NumberScale) or isinstance(was, str | bool) or isinstance(now, str | bool):
        return Difference(name, was, now, was != now)
    change = now - was
    counts = len(first.trials), len(second.trials)
    differs = change**2 > QUANTILE**2 * scale.sem**2 * _shares(scale, *counts)
    return Difference(
        name,
        was,
        now,
        differs,
        change,
        change_error(scale, *counts),
        detectable_change(scale, *counts),
        (change > 0) == (scale.better == "higher") if differs and scale.better else None,
    )


def _shares(scale: NumberScale, first: int, second: int) -> Fraction:
    if scale.sem_of == "session":
        return Fraction(2)
    return Fraction(1, first) + Fraction(1, second)
