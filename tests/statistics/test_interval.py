"""Intervals for shares, beside published ones."""

from __future__ import annotations

import pytest

from builder.statistics import wilson


# Reference value ci-wilson-cp. Source: examples of Newcombe, Stat Med 1998;17:857-872 (remembered), computed
# with statsmodels' proportion_confint and R's prop.test, which agree.
@pytest.mark.parametrize(
    ("held", "of", "low", "high"),
    [
        (81, 263, 0.25529, 0.36621),
        (15, 148, 0.06239, 0.16049),
        (0, 20, 0.0, 0.16113),
        (1, 29, 0.00611, 0.17176),
        (5, 25, 0.08861, 0.39131),
        (18, 20, 0.69897, 0.97213),
        (10, 10, 0.72247, 1.0),
    ],
)
def test_wilsons_interval(held: int, of: int, low: float, high: float) -> None:
    assert wilson(held, of) == pytest.approx((low, high), abs=6e-6)


@pytest.mark.parametrize(("held", "of"), [(0, 0), (-1, 3), (4, 3), (1, -1)])
def test_what_is_no_share_has_no_interval(held: int, of: int) -> None:
    with pytest.raises(ValueError, match="no share"):
        wilson(held, of)
