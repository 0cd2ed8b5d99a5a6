"""The chance of passing: the table that the browser computes too, reference libraries, and laws."""

from __future__ import annotations

import json
from math import ceil, comb

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import betaln
from scipy.stats import beta, betabinom, binom

from builder.statistics import Row, chance
from builder.statistics.chances import CAUTION, WORTHS, fitted

from .tables import CHANCES

ROWS = st.builds(
    lambda questions, right, wrong, serious: Row(
        questions, right, wrong, None if serious is None else (min(serious, wrong), max(0, wrong - serious))
    ),
    st.integers(1, 5),
    st.integers(0, 30),
    st.integers(0, 12),
    st.none() | st.integers(0, 3),
)


def test_the_table_is_what_is_computed() -> None:
    """Rows (questions, right, wrong, and of the wrong serious and not, or null), how many must be right,
    and the low end, the chance and the high end."""
    cases = json.loads(CHANCES.read_text("utf-8"))
    assert len(cases) > 30
    for rows, needed, *wanted in cases:
        found = chance([Row(*row) for row in rows], needed)
        assert (found.low, found.chance, found.high) == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize(
    ("questions", "right", "wrong"),
    [(10, 7, 3), (10, 0, 0), (5, 1, 0), (12, 40, 1), (3, 2, 9), (500, 900, 9)],
)
def test_one_objective_has_a_uniform_prior(questions: int, right: int, wrong: int) -> None:
    """Chance: scipy.stats.betabinom. Interval: the skill at its 5th and 95th of a hundred parts,
    scipy.stats.beta, put into scipy.stats.binom: the chance grows with the skill."""
    needed = ceil(0.8 * questions)
    found = chance([Row(questions, right, wrong)], needed)
    assert found.chance == pytest.approx(betabinom.sf(needed - 1, questions, 1 + right, 1 + wrong), abs=1e-10)
    ends = [binom.sf(needed - 1, questions, beta.ppf(at, 1 + right, 1 + wrong)) for at in (0.05, 0.95)]
    assert (found.low, found.high) == pytest.approx(ends, abs=0.015)


def test_the_interval_holds_nine_tenths_of_what_the_skill_may_be() -> None:
    """scipy.integrate.quad over the skill, where the chance lies within."""
    found = chance([Row(14, 34, 6)], 12)
    inside, _ = quad(
        lambda skill: beta.pdf(skill, 35, 7) * (found.low <= binom.sf(11, 14, skill) <= found.high),
        0,
        1,
        limit=500,
        points=[0.75, 0.8, 0.85, 0.9],
    )
    assert inside == pytest.approx(0.9, abs=0.01)


def test_several_objectives_are_fitted_to_each_other() -> None:
    """The same distributions by scipy: for each number of answers that a fit may count as, its middle is
    integrated over by scipy.integrate.quad, and rows are convolved by numpy."""
    rows = [Row(3, 4, 0), Row(3, 3, 1), Row(2, 1, 2), Row(2, 5, 0)]
    needed = 8

    def likely(middle: float, worth: int) -> float:
        a, b = middle * worth, (1 - middle) * worth
        logs = sum(betaln(a + row.right, b + row.wrong) - betaln(a, b) for row in rows)
        return float(np.exp(logs)) * (middle * (1 - middle)) ** (CAUTION - 1)

    def passes(middle: float, worth: int) -> float:
        whole = np.array([1.0])
        for row in rows:
            a, b = middle * worth + row.right, (1 - middle) * worth + row.wrong
            whole = np.convolve(whole, betabinom.pmf(np.arange(row.questions + 1), row.questions, a, b))
        return float(whole[needed:].sum())

    every = sum(quad(likely, 0, 1, args=(worth,))[0] for worth in WORTHS)
    passed = sum(quad(lambda m, w=worth: likely(m, w) * passes(m, w), 0, 1)[0] for worth in WORTHS)
    assert chance(rows, needed).chance == pytest.approx(passed / every, abs=0.004)


def test_the_interval_is_that_of_skills_drawn_at_random() -> None:
    """numpy, seed 1: 20,000 times a distribution, each objective's skill and share of serious answers."""
    rows = [Row(3, 8, 1), Row(3, 6, 3, (1, 2)), Row(2, 7, 0), Row(4, 9, 4, (0, 4))]
    needed, random = 9, np.random.default_rng(1)
    skills = fitted([(row.right, row.wrong) for row in rows], CAUTION)
    shares = fitted([row.wrong_so for row in rows if row.wrong_so])
    drawn = []
    for _ in range(20_000):
        a, b = skills[random.choice(len(skills), p=[weight for _, weight in skills])][0]
        c, d = shares[random.choice(len(shares), p=[weight for _, weight in shares])][0]
        whole = np.array([1.0])
        for row in rows:
            skill = random.beta(a + row.right, b + row.wrong)
            serious = random.beta(c + row.wrong_so[0], d + row.wrong_so[1]) if row.wrong_so else 0
            right = np.arange(row.questions + 1)
            each = [binomial(row.questions, k, skill) * (1 - serious) ** (row.questions - k) for k in right]
            whole = np.convolve(whole, each)
        drawn.append(whole[needed:].sum())
    found = chance(rows, needed)
    assert found.chance == pytest.approx(np.mean(drawn), abs=0.01)
    assert (found.low, found.high) == pytest.approx(np.quantile(drawn, (0.05, 0.95)), abs=0.04)


def binomial(n: int, k: int, share: float) -> float:
    return comb(n, k) * share**k * (1 - share) ** (n - k)


@given(st.lists(ROWS, min_size=1, max_size=4), st.floats(0.1, 1))
@settings(max_examples=60, deadline=None)
def test_laws(rows: list[Row], share: float) -> None:
    questions = sum(row.questions for row in rows)
    needed = ceil(share * questions)
    found = chance(rows, needed)
    assert 0 <= found.low <= found.chance <= found.high <= 1 + 1e-9
    told = [Row(row.questions, row.right, row.wrong) for row in rows]
    assert found.chance <= chance(told, needed).chance + 1e-9, "what may be serious passes less often"
    assert chance(told, 0).chance == pytest.approx(1)
    assert found.chance <= chance(rows, needed - 1).chance + 1e-9
    weights = [weight for _, weight in fitted([(row.right, row.wrong) for row in rows], CAUTION)]
    assert sum(weights) == pytest.approx(1)
    assert all(a + b >= 2 - 1e-9 for (a, b), _ in fitted([(row.right, row.wrong) for row in rows], CAUTION))


def test_other_objectives_tell_of_one_with_few_answers() -> None:
    alone = chance([Row(5, 1, 1)], 4).chance
    with_good = chance([Row(5, 1, 1), Row(0, 20, 0), Row(0, 19, 1)], 4).chance
    with_bad = chance([Row(5, 1, 1), Row(0, 2, 18), Row(0, 1, 19)], 4).chance
    assert with_bad < alone < with_good
    assert chance([Row(5, 1, 1), Row(0, 0, 0)], 4) == chance([Row(5, 1, 1)], 4)


def test_serious_answers_lower_the_chance_and_harmless_ones_raise_it() -> None:
    def of(serious: int, harmless: int) -> float:
        return chance([Row(5, 20, 10, (serious, harmless))], 3).chance

    assert of(10, 0) < of(5, 5) < of(0, 10) < chance([Row(5, 20, 10)], 3).chance
