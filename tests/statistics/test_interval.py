"""Wilson's interval, as published and as the browser computes it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from builder.statistics import wilson

from ..node import run_node_tests

HERE = Path(__file__).parent
INTERVALS = json.loads((HERE / "intervals.json").read_text("utf-8"))
"""Held, of, lower and upper end. Reference value ci-wilson-cp. Source: the first four are examples of
Newcombe, Stat Med 1998;17:857-872 (remembered); computed with statsmodels' proportion_confint and R's
prop.test, which agree. The last two, of one try, by hand: with none held the upper end is z^2 / (1 + z^2),
and the other way round."""


@pytest.mark.parametrize(("held", "of", "low", "high"), INTERVALS)
def test_wilsons_interval(held: int, of: int, low: float, high: float) -> None:
    assert wilson(held, of) == pytest.approx((low, high), abs=6e-6)


@pytest.mark.parametrize("of", [*range(1, 400), 0.5, 10**9])
def test_the_ends_of_nothing_and_of_all_are_shares(of: float) -> None:
    assert wilson(0, of)[0] == 0
    assert 0 < wilson(0, of)[1] < 1
    assert wilson(of, of)[1] <= 1
    assert wilson(of, of)[1] == pytest.approx(1, abs=1e-12)


@pytest.mark.parametrize(("held", "of"), [(0, 0), (-1, 3), (4, 3), (1, -1), (-0.001, 1), (1.001, 1), (0, -1)])
def test_what_is_no_share_has_no_interval(held: float, of: float) -> None:
    with pytest.raises(ValueError, match=f"^{held} of {of} is no share$"):
        wilson(held, of)


def test_the_browser_computes_the_same() -> None:
    run_node_tests(HERE / "browser_part.test.js", 5)
