"""Readings put on their grids, once."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from builder.checks import check
from builder.course import Measure, Reading
from builder.decide import grid
from builder.decide.found import Recorded, find
from builder.source import load

from .courses import choice, course, number, read, yes_no

MADE = course(number("a", 0, 60), choice("c", "hip", "wide"), yes_no("y"))


def test_what_is_recorded_of_each_reading() -> None:
    assert find(MADE, read(y=True, c="wide", a=[31, 33, 32])).recorded == {
        "a": Recorded(32, Fraction(32), 3),
        "c": Recorded(1, "wide", 0),
        "y": Recorded(1, True, 0),
    }


def test_what_cannot_be_is_left_out() -> None:
    found = find(MADE, read(a="32.5", c="none", y=False, gone=3))
    assert found.values == {"y": False}
    assert list(found.recorded) == ["y"]


def test_what_was_found_later_takes_the_place_of_what_was_found_before() -> None:
    first, later = find(MADE, read(a=3, y=True)), find(MADE, read(a=5, c="hip"))
    assert first.renewed(later).values == {"a": 5, "c": "hip", "y": True}
    assert first.values == {"a": 3, "y": True}


def test_a_check_puts_every_reading_on_its_grid_once(monkeypatch: pytest.MonkeyPatch) -> None:
    loaded = load(Path(__file__).parents[1] / "courses" / "ankle")
    counted: list[tuple[str, Reading]] = []
    index = grid.index

    def counting(measure: Measure, reading: Reading) -> int:
        counted.append((measure.name, reading))
        return index(measure, reading)

    monkeypatch.setattr(grid, "index", counting)
    check(loaded, "2030-01-01")
    cases = loaded.course.cases.values()
    again = sum(len(case.retest.readings) for case in cases if case.retest)
    assert len(counted) == sum(len(case.readings) for case in cases) + again
