"""Where conditions part a number's grid: a line lies between two steps, never on one."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from builder.course import Band, Condition, NumberScale


@dataclass(frozen=True, slots=True)
class DrawnLine:
    """A line that one bound of a condition draws."""

    above: int
    """Index of the first step above it; outside the domain where no two steps are parted."""
    cut: Fraction
    """The threshold as it is written, in the measure's unit."""
    on_it: bool
    """Whether the threshold itself counts to the upper side."""

    def parts(self, low: Fraction, high: Fraction) -> bool:
        """Whether a bound here holds for one of two numbers, of which `low` is not the larger, alone."""
        return low < self.cut <= high if self.on_it else low <= self.cut < high


def drawn_lines(scale: NumberScale, conditions: Iterable[Condition]) -> Iterator[DrawnLine]:
    """The line of every bound, in the order written. Other conditions draw none."""
    for condition in conditions:
        for bound, cut in condition.bounds.items() if isinstance(condition, Band) else ():
            steps = (cut - scale.start) / scale.step
            on_it = bound in ("at_least", "below")
            yield DrawnLine(math.ceil(steps) if on_it else math.floor(steps) + 1, cut, on_it)


def midway(scale: NumberScale, above: int) -> Fraction:
    """Where the line below step `above` lies: midway between that step and the one before, in the measure's
    unit (course format, "Doubt")."""
    return scale.start + scale.step * (above - Fraction(1, 2))
