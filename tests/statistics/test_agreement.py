"""How far people choose alike, against a published worked example and against going through every pair."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from math import sqrt
from statistics import mean, stdev

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.stats import t

from builder.statistics import coefficient, over_clients, pairs, share_alike

WORKED = [
    [0, 0, 0, 0, 14],
    [0, 2, 6, 4, 2],
    [0, 0, 3, 5, 6],
    [0, 3, 9, 2, 0],
    [2, 2, 8, 1, 1],
    [7, 7, 0, 0, 0],
    [3, 2, 6, 3, 0],
    [2, 5, 3, 2, 2],
    [6, 5, 2, 1, 0],
    [0, 2, 2, 3, 7],
]
"""Fourteen people, ten things, five answers: the worked example of "Fleiss' kappa", Wikipedia, which gives
P = 0.378, Pe = 0.213 and 0.210; the table is from memory and was compared with copies in open test suites."""

ROW = st.lists(st.integers(0, 6), min_size=3, max_size=3)
ROWS = st.lists(ROW.filter(lambda row: sum(row) > 1), min_size=1, max_size=8)


def test_the_worked_example() -> None:
    assert share_alike(WORKED) == pytest.approx(0.378, abs=0.0005)
    assert coefficient(WORKED) == pytest.approx(0.210, abs=0.0005)


@given(ROW)
def test_pairs_are_those_that_can_be_made(row: list[int]) -> None:
    people = [place for place, count in enumerate(row) for _ in range(count)]
    both = [one == other for one, other in combinations(people, 2)]
    assert pairs(row) == (sum(both), len(both))


@given(ROWS)
def test_everybody_alike_is_one_and_order_does_not_matter(rows: list[list[int]]) -> None:
    assert 0 <= share_alike(rows) <= 1
    assert share_alike(rows) == pytest.approx(share_alike(rows[::-1]))
    found, turned = coefficient(rows), coefficient([row[::-1] for row in rows])
    assert (found is None) == (turned is None)
    assert found is None or found == pytest.approx(turned, abs=1e-9)
    assert found is None or found <= 1 + 1e-9
    alike = [[sum(row), 0, 0] if place % 2 else [0, sum(row), 0] for place, row in enumerate(rows)]
    assert share_alike(alike) == 1
    assert coefficient(alike) == (None if len(rows) == 1 else pytest.approx(1))


def test_always_the_same_answer_tells_nothing_apart_from_chance() -> None:
    assert coefficient([[3, 0], [5, 0]]) is None
    assert over_clients([[3, 0], [5, 0]], coefficient) is None


def test_one_person_alone_says_nothing() -> None:
    with pytest.raises(ValueError, match="two people"):
        share_alike([[1, 0], [0, 1]])
    assert share_alike([[1, 0], [2, 0]]) == 1
    assert over_clients([[1, 0], [2, 0]], share_alike) is None
    assert over_clients([[1, 1], [2, 0]], share_alike, 0.0) == (0.0, 1.0)
    assert over_clients([], share_alike) is None


@given(ROWS)
def test_the_interval_of_a_mean_is_that_of_student(rows: list[list[int]]) -> None:
    """The jackknife of a mean is the mean with its standard error (Tukey 1958)."""
    assume(len(rows) > 2)
    shares = [alike / of for alike, of in map(pairs, rows)]
    reach = t.ppf(0.975, len(rows) - 1) * stdev(shares) / sqrt(len(rows))
    interval = over_clients(rows, share_alike)
    assert interval is not None
    assert interval[0] == pytest.approx(max(-1, mean(shares) - reach), rel=0.002, abs=0.002)
    assert interval[1] == pytest.approx(min(1, mean(shares) + reach), rel=0.002, abs=0.002)


def test_the_interval_holds_the_true_figure_of_a_large_population() -> None:
    """Over halves of the worked example the whole's figure lies inside, whichever half is taken."""
    for half in (WORKED[:5], WORKED[5:], WORKED[::2], WORKED[1::2]):
        interval = over_clients(half, _whole)
        assert interval is not None
        assert interval[0] <= 0.378 <= interval[1]


def _whole(rows: Sequence[Sequence[int]]) -> float:
    return share_alike(rows)
