"""What was found of a client: every reading put on its measure's grid, once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from builder.course import Course, Measure, Reading

from . import grid
from .grid import Value


@dataclass(frozen=True, slots=True)
class Recorded:
    """What is recorded for one measure."""

    index: int
    """On the measure's domain."""
    value: Value
    trials: int
    """How many trials a number is the mean of; 0 for a choice or yes/no."""


@dataclass(frozen=True)
class Found:
    """By measure, in the order of the course. Measures without a usable reading are left out."""

    recorded: Mapping[str, Recorded] = field(default_factory=dict)

    @cached_property
    def values(self) -> Mapping[str, Value]:
        """The recorded values alone."""
        return {name: one.value for name, one in self.recorded.items()}

    def renewed(self, later: Found) -> Found:
        """With what was found later in place of what was found of the same measures before."""
        return Found({**self.recorded, **later.recorded})


def find(course: Course, readings: Mapping[str, Reading]) -> Found:
    """What readings come to. Those that cannot be, and those of no measure, are left out."""
    found: dict[str, Recorded] = {}
    for name, measure in course.measures.items():
        if name in readings:
            one = _recorded(measure, readings[name])
            if one is not None:
                found[name] = one
    return Found(found)


def _recorded(measure: Measure, reading: Reading) -> Recorded | None:
    try:
        index = grid.index(measure, reading)
    except ValueError:
        return None
    return Recorded(index, grid.value(measure, index), len(reading.trials))
