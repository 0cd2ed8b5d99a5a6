"""The chance of passing a fresh draw of a quiz; the browser's `web/readiness.js` computes the same.

For each objective the share of its questions that a learner gets right is not known. It is taken as drawn
from a beta distribution that is fitted to the learner's objectives (so, for each, to the others) and counts
as at least two answers; to this comes what the objective's own first answers say. Since no fit to few
answers is sure, all distributions of a grid are used, each as far as the answers speak for it (Deely JJ,
Lindley DV. Bayes empirical Bayes. Journal of the American Statistical Association 1981;76(376):833-841).
With fewer than two objectives answered every share is as likely, Beta(1, 1). How many of the wrong answers
are serious is found in the same way, from the objectives whose questions can be answered so.

Given such a distribution, the number right of an objective's questions is beta-binomial (Skellam JG.
Journal of the Royal Statistical Society B 1948;10(2):257-261), and the quiz is the convolution of its rows,
nothing approximated.

The interval is that of the chance over what the skill may be. The skill over the whole quiz is taken as a
beta distribution with its mean and variance, and the quiz is worked out at the points of a grid over it
(and over the share of serious answers), all objectives moving together. With one objective this is exact
but for the grid.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import asin, cos, exp, lgamma, log, pi, sin, sqrt
from operator import mul
from typing import TypeVar

WORTHS = (2, 8, 32, 128)
"""How many answers a fitted distribution may count as."""
MIDDLES = 8
CAUTION = 1.25
"""The middle of skills is taken as Beta(1.25, 1.25): of 1, 1.25 and 1.5 the one that came out truest in
`tests/bench/bench_chances.py`, since whoever missed nothing is then shown no near-certain pass (common
practice)."""
SKILLS = 32
SHARES = 8
"""Points of the grids over a distribution's middle, over the skill, and over the share of serious answers."""
REACH = 4
"""Standard deviations to each side that a grid covers."""
LEAST = 1e-3
"""Of the best fit: a distribution that less speaks for is left out."""
TAIL = 0.05

T = TypeVar("T")
Beta = tuple[float, float]
Weighted = Sequence[tuple[Beta, float]]


@dataclass(frozen=True, slots=True)
class Row:
    """An objective, and what a learner's first answers say of it."""

    questions: int
    """In a draw; 0 where it only tells of the learner."""
    right: int
    wrong: int
    wrong_so: tuple[int, int] | None = None
    """Of the wrong answers those that were serious, and those that were not; None where no answer to its
    questions is serious, or where a serious one is only told."""


@dataclass(frozen=True, slots=True)
class Chance:
    low: float
    chance: float
    high: float
    """`low` and `high` are the ends of a 90 % interval."""


def chance(rows: Sequence[Row], needed: int) -> Chance:
    """Of at least `needed` right answers and none that is serious, in a fresh draw."""
    asked = [row for row in rows if row.questions]
    skills = fitted([(row.right, row.wrong) for row in rows], CAUTION)
    shares = fitted([row.wrong_so for row in rows if row.wrong_so])
    rights = [
        ([_beta_binomial(row.questions, a + row.right, b + row.wrong) for row in asked], weight)
        for (a, b), weight in skills
    ]
    safes = [([_safe(row, beta) for row in asked], weight) for beta, weight in shares]
    mean = sum(of * weight * _passed(needed, right, safe) for right, of in rights for safe, weight in safes)
    found = sorted(_over_skill(asked, needed, skills, shares))
    return Chance(min(mean, _quantile(found, TAIL)), mean, max(mean, _quantile(found, 1 - TAIL)))


def fitted(counts: Sequence[tuple[int, int]], caution: float = 1) -> Weighted:
    """Beta distributions that a learner's shares may be drawn from, each with its weight, how far the
    counts of yes and no speak for it; the weights sum to 1. Their middle is taken as Beta(caution,
    caution)."""
    tried = [one for one in counts if sum(one)]
    if len(tried) < 2:
        return [((1, 1), 1)]
    found = []
    for worth in WORTHS:
        told = [(yes + no) * (worth + 1) / (yes + no + worth) for yes, no in tried]
        of = 2 * caution + sum(told)
        held = sum(weight * yes / (yes + no) for (yes, no), weight in zip(tried, told, strict=True))
        for middle, width in _grid((caution + held) / of, of, MIDDLES):
            a, b = middle * worth, (1 - middle) * worth
            likely = sum(_rising(a, yes) + _rising(b, no) - _rising(worth, yes + no) for yes, no in tried)
            found.append(((a, b), likely + log(width) + (caution - 1) * log(middle * (1 - middle))))
    best = max(likely for _, likely in found)
    return _summing([(beta, exp(likely - best)) for beta, likely in found if likely - best > log(LEAST)])


def _grid(share: float, worth: float, count: int) -> list[tuple[float, float]]:
    """Points between 0 and 1 around a share that `worth` answers tell, each with the width it stands for.

    Even steps of the angle whose squared sine is the share: its standard deviation, 1 / (2 sqrt(worth)),
    hardly depends on the share (Bartlett MS. Supplement to the Journal of the Royal Statistical Society
    1936;3(1):68-78; from memory).
    """
    angle, reach = asin(sqrt(share)), REACH / (2 * sqrt(worth))
    low, high = max(0, angle - reach), min(pi / 2, angle + reach)
    step = (high - low) / count
    angles = [low + (index + 0.5) * step for index in range(count)]
    return [(sin(one) ** 2, step * 2 * sin(one) * cos(one)) for one in angles]


def _rising(start: float, steps: int) -> float:
    """The logarithm of start (start + 1) ... (start + steps - 1)."""
    return lgamma(start + steps) - lgamma(start)


def _beta_binomial(n: int, a: float, b: float) -> list[float]:
    """The chance of 0, 1, ... n."""
    return _distribution((n - k) * (a + k) / ((k + 1) * (b + n - k - 1)) for k in range(n))


def _binomial(n: int, share: float) -> list[float]:
    return _distribution((n - k) * share / ((k + 1) * (1 - share)) for k in range(n))


def _distribution(ratios: Iterable[float]) -> list[float]:
    """From how many times as likely each number is as the one before."""
    logs = list(accumulate((log(one) for one in ratios), initial=0.0))
    top = max(logs)
    weights = [exp(one - top) for one in logs]
    whole = sum(weights)
    return [weight / whole for weight in weights]


def _safe(row: Row, beta: Beta) -> list[float]:
    """The chance that none of 0, 1, ... wrong answers to the questions of a row is serious."""
    serious, harmless = (beta[0] + row.wrong_so[0], beta[1] + row.wrong_so[1]) if row.wrong_so else (0, 1)
    steps = ((harmless + k) / (serious + harmless + k) for k in range(row.questions))
    return list(accumulate(steps, mul, initial=1.0))


def _passed(needed: int, right: Sequence[Sequence[float]], safe: Sequence[Sequence[float]]) -> float:
    """By convolution, from each row's chances of 0, 1, ... right answers, and that none of 0, 1, ... wrong
    ones is serious."""
    whole = [1.0]
    for chances, harmless in zip(right, safe, strict=True):
        row = [one * other for one, other in zip(chances, reversed(harmless), strict=True)]
        both = [0.0] * (len(whole) + len(row) - 1)
        for i, before in enumerate(whole):
            for j, then in enumerate(row):
                both[i + j] += before * then
        whole = both
    return sum(whole[needed:])


def _over_skill(
    asked: Sequence[Row], needed: int, skills: Weighted, shares: Weighted
) -> Iterable[tuple[float, float]]:
    """What the chance may be, each with its weight."""
    unsafe = [row for row in asked if row.wrong_so]
    wrong = [row.questions * (row.wrong + 1) / (row.right + row.wrong + 2) for row in unsafe]
    risks = _together(wrong, [row.wrong_so or (0, 0) for row in unsafe], shares, SHARES)
    for rights, weight in _together(
        [row.questions for row in asked], [(row.right, row.wrong) for row in asked], skills, SKILLS
    ):
        right = [_binomial(row.questions, share) for row, share in zip(asked, rights, strict=True)]
        for risk, other in risks:
            given = iter(risk)
            each = [1 - next(given) if row.wrong_so else 1 for row in asked]
            safe = [[one**k for k in range(row.questions + 1)] for one, row in zip(each, asked, strict=True)]
            yield _passed(needed, right, safe), weight * other


def _together(
    weights: Sequence[float], counts: Sequence[tuple[int, int]], betas: Weighted, points: int
) -> list[tuple[list[float], float]]:
    """The shares of all rows, moving together as their weighted mean does, each with its weight.

    The mean is taken as a beta distribution with the mean and variance that it has."""
    if not weights:
        return [([], 1)]
    whole = sum(weights)
    means, middle, square = [0.0] * len(weights), 0.0, 0.0
    for (a, b), of in betas:
        each = [((a + yes) / (a + b + yes + no), a + b + yes + no + 1) for yes, no in counts]
        mean = sum(weight * one for weight, (one, _) in zip(weights, each, strict=True)) / whole
        spread = sum(
            (weight / whole) ** 2 * one * (1 - one) / n
            for weight, (one, n) in zip(weights, each, strict=True)
        )
        means = [before + of * one for before, (one, _) in zip(means, each, strict=True)]
        middle, square = middle + of * mean, square + of * (mean * mean + spread)
    worth = middle * (1 - middle) / (square - middle * middle) - 1
    found = []
    for share, width in _grid(middle, worth, points):
        density = (middle * worth - 1) * log(share) + ((1 - middle) * worth - 1) * log(1 - share)
        moved = [
            one * share / middle if share < middle else 1 - (1 - one) * (1 - share) / (1 - middle)
            for one in means
        ]
        found.append((moved, density + log(width)))
    best = max(likely for _, likely in found)
    return _summing([(moved, exp(likely - best)) for moved, likely in found])


def _quantile(found: Sequence[tuple[float, float]], at: float) -> float:
    """Of values in order, each in the middle of its weight, with lines between."""
    below, before = 0.0, (0.0, found[0][0])
    for value, weight in found:
        here = below + weight / 2
        if here >= at:
            done = (at - before[0]) / (here - before[0])
            return before[1] + done * (value - before[1])
        below, before = below + weight, (here, value)
    return before[1]


def _summing(weighted: Sequence[tuple[T, float]]) -> list[tuple[T, float]]:
    whole = sum(weight for _, weight in weighted)
    return [(one, weight / whole) for one, weight in weighted]
