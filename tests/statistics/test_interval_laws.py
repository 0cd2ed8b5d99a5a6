"""Intervals for shares: laws, and a reference library."""

from __future__ import annotations

from math import nextafter

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from builder.statistics import wilson


@given(st.integers(1, 5000).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of))))
def test_it_is_the_interval_of_a_reference_library(counts: tuple[int, int]) -> None:
    """scipy.stats, `BinomTestResult.proportion_ci(method="wilson")`."""
    held, of = counts
    theirs = binomtest(held, of).proportion_ci(0.95, "wilson")
    assert wilson(held, of) == pytest.approx((theirs.low, theirs.high), abs=1e-9)


@given(st.floats(1e-3, 1e4).flatmap(lambda of: st.tuples(st.floats(0, of), st.just(of))))
def test_it_holds_the_share_and_stays_within_0_and_1(weights: tuple[float, float]) -> None:
    """Counts may be sums of weights, so that they need not be whole."""
    held, of = weights
    low, high = wilson(held, of)
    assert 0 <= low <= high <= 1
    assert low - 1e-12 <= held / of <= high + 1e-12
    assert wilson(of - held, of) == pytest.approx((1 - high, 1 - low), abs=1e-9)


def test_rounding_never_leads_beyond_the_ends() -> None:
    for of in range(1, 2000):
        assert wilson(0, of)[0] == 0
        assert wilson(of, of)[1] <= 1
        # In closed form: n / (n + z^2), z the 0.975 quantile of the normal distribution
        assert wilson(of, of)[0] == pytest.approx(of / (of + 1.959963984540054**2))


def test_a_share_just_beyond_its_ends_is_none() -> None:
    for held, of in [(nextafter(1, 2), 1), (nextafter(0, -1), 1), (0, 0.0)]:
        with pytest.raises(ValueError, match="no share"):
            wilson(held, of)
