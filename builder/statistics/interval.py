"""Intervals for shares; the browser's `web/interval.js` computes the same."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from math import sqrt

_Z = 1.959963984540054
"""The 0.975 quantile of the normal distribution."""


def wilson(held: float, of: float) -> tuple[float, float]:
    """Lower and upper end of Wilson's score interval for a share, at 95 %.

    Wilson EB. Probable inference, the law of succession, and statistical inference. Journal of the American
    Statistical Association 1927;22(158):209-212. With p = held / of and z the 0.975 quantile of the normal
    distribution: (p + z^2/2n -+ z sqrt(p(1-p)/n + z^2/4n^2)) / (1 + z^2/n).

    `held` is between 0 and `of`, `of` above 0; raises ValueError otherwise.
    """
    if not (of > 0 and 0 <= held <= of):
        raise ValueError(f"{held} of {of} is no share")
    share = held / of
    square = _Z * _Z / of
    middle = share + square / 2
    spread = sqrt(square * (share * (1 - share) + square / 4))
    return max(0.0, (middle - spread) / (1 + square)), min(1.0, (middle + spread) / (1 + square))


def clustered(answers: Iterable[tuple[bool, Hashable]]) -> tuple[float, float]:
    """The interval for the share of answers that hold, where answers about one client hang together.

    Each answer comes with its client; None stands alone. It is Wilson's interval for as many answers as
    they count as, so where no client comes twice it is Wilson's own. Raises ValueError without an answer.
    """
    groups: dict[Hashable, list[bool]] = {}
    for number, (held, client) in enumerate(answers):
        groups.setdefault(number if client is None else ("client", client), []).append(held)
    sizes = [(sum(group), len(group)) for group in groups.values()]
    right, of = (sum(each) for each in zip((0, 0), *sizes, strict=True))
    if not of:
        raise ValueError("0 of 0 is no share")
    worth = counting_as(sizes)
    return wilson(right / of * worth, worth)


def counting_as(groups: list[tuple[int, int]]) -> float:
    """How many answers that have nothing to do with each other tell as much; (held, answered) client by
    client.

    All answers over the design effect, at least 1: how many times the variance is what it would be without
    clients, by the estimator of a ratio (Rao JNK, Scott AJ. A simple method for the analysis of clustered
    binary data. Biometrics 1992;48(2):577-585). Few clients tell little of that variance, so the number is
    lessened by the squared ratio of the t quantiles for answers and for clients, each less 1 (Korn EL,
    Graubard BI. Confidence intervals for proportions with small expected number of positive counts
    estimated from survey data. Survey Methodology 1998;24(2):193-201, as quoted by later authors). It is
    never less than n^2 / sum(n_i^2), what it would be if answers about one client were all alike (Kish L.
    Survey Sampling, 1965; from memory).
    """
    of, count = sum(n for _, n in groups), len(groups)
    if count == of:
        return of
    least = of * of / sum(n * n for _, n in groups)
    if count == 1:
        return least
    share = sum(held for held, _ in groups) / of
    plain = of * share * (1 - share)
    apart = count / (count - 1) * sum((held - n * share) ** 2 for held, n in groups)
    effect = max(1.0, apart / plain) if plain else 1.0
    return max(least, of / effect * (t_quantile(of - 1) / t_quantile(count - 1)) ** 2)


def t_quantile(freedom: int) -> float:
    """The 0.975 quantile of the t distribution, to a thousandth of itself.

    Abramowitz M, Stegun IA. Handbook of Mathematical Functions, 1964, 26.7.5; for 1 and 2 in closed form.
    """
    if freedom < 3:
        return (12.7062, 4.30265)[freedom - 1]
    terms = (_Z, 2.37227, 2.8225, 2.55585, 1.58953)
    return sum(term / float(freedom) ** power for power, term in enumerate(terms))
