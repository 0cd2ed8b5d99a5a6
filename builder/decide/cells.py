"""Cells: the longest runs of recorded values of a measure that no rule and no caution tells apart."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from builder.course import Condition, Measure, NumberScale

from . import grid
from .evaluate import holds
from .lines import drawn_lines, midway

Cell = range | tuple[int, ...]
"""Indexes on a measure's domain. A run for numbers; for choices, all values that are never told apart."""


@dataclass(frozen=True, slots=True)
class Axis:
    """One measure as the rules see it."""

    measure: Measure
    cells: tuple[Cell, ...]
    _starts: tuple[int, ...] = ()
    _homes: Mapping[int, int] = field(default_factory=dict)

    def cell(self, index: int) -> int:
        """The cell that an index on the domain lies in."""
        return bisect_right(self._starts, index) - 1 if self._starts else self._homes[index]

    def admits(self, condition: Condition) -> int:
        """The bit set of the cells where a condition of this course holds."""
        return sum(
            1 << number for number, cell in enumerate(self.cells) if _holds(condition, self.measure, cell[0])
        )

    def cells_of(self, values: Sequence[grid.Value]) -> int:
        """The bit set of the cells with one of some values; for numbers, between the first and the last."""
        first, last = values[0], values[-1]
        found = 0
        for number, cell in enumerate(self.cells):
            low, high = grid.value(self.measure, cell[0]), grid.value(self.measure, cell[-1])
            if isinstance(self.measure.scale, NumberScale):
                assert not isinstance(low, str)
                assert not isinstance(high, str)
                assert not isinstance(first, str)
                assert not isinstance(last, str)
                inside = low <= last and first <= high
            else:
                inside = any(grid.value(self.measure, index) in values for index in cell)
            found |= inside << number
        return found

    def line(self, number: int) -> Fraction:
        """Where the line between a number's cells `number - 1` and `number` lies, in the measure's unit."""
        scale = self.measure.scale
        assert isinstance(scale, NumberScale)
        return midway(scale, self.cells[number][0])


def axis(measure: Measure, conditions: Iterable[Condition]) -> Axis:
    """The cells of a measure under all conditions that any rule or caution puts on it."""
    told = list(conditions)
    if isinstance(measure.scale, NumberScale):
        size = grid.size(measure)
        cuts = {line.above for line in drawn_lines(measure.scale, told)}
        starts = [0, *sorted(cut for cut in cuts if 0 < cut < size)]
        signs = [[_holds(one, measure, start) for one in told] for start in starts]
        kept = tuple(start for n, start in enumerate(starts) if n == 0 or signs[n] != signs[n - 1])
        ends = (*kept[1:], size)
        return Axis(measure, tuple(map(range, kept, ends)), _starts=kept)
    groups: dict[tuple[bool, ...], list[int]] = {}
    for index in range(grid.size(measure)):
        groups.setdefault(tuple(_holds(one, measure, index) for one in told), []).append(index)
    cells = tuple(tuple(group) for group in groups.values())
    return Axis(measure, cells, _homes={index: n for n, cell in enumerate(cells) for index in cell})


def _holds(condition: Condition, measure: Measure, index: int) -> bool:
    return holds(condition, grid.value(measure, index))
