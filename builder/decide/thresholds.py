"""Comparing a computed chance with a limit, so that rounding never decides.

Chances are sums in floating point: one that is 0.8 exactly may come out a little above or below.
"""

from __future__ import annotations

TOLERANCE = 1e-9
"""Far above what rounding does to a chance, far below what anybody would notice."""


def at_least(number: float, limit: float) -> bool:
    """Whether a number reaches a limit; so does one that rounding alone keeps below it."""
    return number >= limit - TOLERANCE


def above(number: float, limit: float) -> bool:
    """Whether a number is past a limit; not so where rounding alone lifts it there."""
    return number > limit + TOLERANCE
