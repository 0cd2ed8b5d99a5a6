"""Intervals for shares; the browser's `web/interval.js` computes the same."""

from __future__ import annotations

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
