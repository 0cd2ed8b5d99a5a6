"""Intervals for answers that hang together: a published example, the browser's table, laws, and coverage."""

from __future__ import annotations

import json
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import t

from builder.statistics import clustered, wilson
from builder.statistics.interval import counting_as, t_quantile

from .tables import CLUSTERED, LITTERS, Groups, answers, groups

EFFECTS = {"control": 1.232495, "treated": 3.952861}
"""Of rats in litters: the documented example of the R package PF, which follows Rao and Scott's paper."""


@pytest.mark.parametrize("group", EFFECTS)
def test_the_published_design_effects(group: str) -> None:
    litters, effect = groups(LITTERS[group]), EFFECTS[group]
    rats, count = sum(n for _, n in litters), len(litters)
    lessened = (t.ppf(0.975, rats - 1) / t.ppf(0.975, count - 1)) ** 2
    assert counting_as(litters) == pytest.approx(rats / effect * lessened, rel=1e-5)


def test_the_table_is_what_is_computed() -> None:
    """Held and answered, client by client, and the ends of the interval."""
    cases = json.loads(CLUSTERED.read_text("utf-8"))
    assert len(cases) > 10
    for clients, low, high in cases:
        assert clustered(answers(clients)) == pytest.approx((low, high), abs=1e-9)


@given(st.lists(st.booleans(), min_size=1, max_size=60))
def test_answers_that_stand_alone_have_wilsons_interval(held: list[bool]) -> None:
    own = wilson(sum(held), len(held))
    assert clustered([(one, None) for one in held]) == own
    assert clustered([(one, at) for at, one in enumerate(held)]) == own


@given(
    st.lists(
        st.tuples(st.integers(0, 8), st.integers(1, 8)).map(lambda pair: (min(pair), pair[1])), min_size=1
    )
)
def test_they_count_as_no_more_than_they_are_and_no_less_than_clients_alike(clients: Groups) -> None:
    of = sum(n for _, n in clients)
    worth = counting_as(clients)
    assert of * of / sum(n * n for _, n in clients) - 1e-9 <= worth <= of + 1e-9
    low, high = clustered(answers(clients))
    assert low - 1e-9 <= sum(held for held, _ in clients) / of <= high + 1e-9


def test_one_client_counts_as_one_answer() -> None:
    assert clustered([(True, "a")] * 7) == wilson(1, 1)
    assert clustered([(True, "a")] * 6 + [(True, "b")] * 6)[0] > wilson(1, 1)[0]


def test_all_right_tells_more_than_one_wrong() -> None:
    whole = clustered(answers([(4, 4)] * 10))
    but_one = clustered(answers([(3, 4)] + [(4, 4)] * 9))
    assert but_one[0] < whole[0]


def test_no_answer_has_no_interval() -> None:
    with pytest.raises(ValueError, match="0 of 0 is no share"):
        clustered([])


def test_the_t_quantile_is_that_of_a_reference_library() -> None:
    for freedom in (*range(1, 60), 1000, 19_999):
        assert t_quantile(freedom) == pytest.approx(t.ppf(0.975, freedom), rel=0.0013)
    assert all(one > other for one, other in pairwise(t_quantile(freedom) for freedom in range(1, 200)))


@pytest.mark.parametrize("share", [0.6, 0.8, 0.9])
@pytest.mark.parametrize("sizes", [[8] * 5, [4] * 10 + [10] * 3, [10] * 10])
def test_nine_of_ten_hold_the_true_share_where_answers_hang_together(sizes: list[int], share: float) -> None:
    """numpy, seed 5; the correlation within clients is 0.2 (a beta-binomial with a + b = 4)."""
    random = np.random.default_rng(5)
    held = {"clustered": 0, "wilson": 0}
    for _ in range(1000):
        skills = random.beta(share * 4, (1 - share) * 4, len(sizes))
        clients = [(int(n), of) for n, of in zip(random.binomial(sizes, skills), sizes, strict=True)]
        low, high = clustered(answers(clients))
        held["clustered"] += low <= share <= high
        low, high = wilson(sum(n for n, _ in clients), sum(sizes))
        held["wilson"] += low <= share <= high
    assert held["clustered"] >= 900
    assert 650 <= held["wilson"] <= 870
