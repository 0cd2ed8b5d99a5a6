"""How far several people who judge the same clients choose alike."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import sqrt

from .interval import t_quantile

Row = Sequence[int]
"""One client: how many people chose each answer. All rows have the same answers in the same order."""


def pairs(row: Row) -> tuple[int, int]:
    """Of all pairs of people who judged one client, how many chose alike, and how many pairs there are."""
    judges = sum(row)
    return sum(one * (one - 1) // 2 for one in row), judges * (judges - 1) // 2


def share_alike(rows: Sequence[Row]) -> float:
    """The share of pairs that chose alike, client by client, and the mean over clients: the P of Fleiss 1971
    (see `coefficient`). Rows of fewer than two people say nothing and are left out; raises ValueError where
    none is left."""
    shares = [alike / of for alike, of in map(pairs, rows) if of]
    if not shares:
        raise ValueError("no client was judged by two people")
    return sum(shares) / len(shares)


def coefficient(rows: Sequence[Row]) -> float | None:
    """Agreement beyond what chance alone would give, from 1 (all alike) by 0 (as by chance) downwards.

    Fleiss JL. Measuring nominal scale agreement among many raters. Psychological Bulletin 1971;76(5):378-382:
    (P - Pe) / (1 - Pe), P as `share_alike`, Pe the sum of the squared shares of all answers. His formula is
    for as many people at every client; where they differ, each client counts alike here, which is our own
    choice. None where everybody gave the same answer throughout: nothing can be told apart from chance.
    """
    judged = [row for row in rows if sum(row) > 1]
    found = share_alike(judged)
    shares = [sum(row[place] / sum(row) for row in judged) / len(judged) for place in range(len(judged[0]))]
    chance = sum(share * share for share in shares)
    return None if chance > 1 - 1e-12 else (found - chance) / (1 - chance)


def over_clients(
    rows: Sequence[Row], figure: Callable[[Sequence[Row]], float | None], lowest: float = -1.0
) -> tuple[float, float] | None:
    """A 95 % interval for a figure, as if other clients like these had been judged by the same people.

    By the jackknife: the figure is worked out again without each client in turn (Tukey JW. Bias and
    confidence in not quite large samples. Annals of Mathematical Statistics 1958;29:614), with the t quantile
    for one less than the clients; cut at 1 and at the `lowest` that the figure can be. None for fewer than
    two clients, or where the figure cannot be told.
    """
    judged = [row for row in rows if sum(row) > 1]
    whole, count = figure(judged) if judged else None, len(judged)
    if whole is None or count < 2:
        return None
    without = [figure(judged[:place] + judged[place + 1 :]) for place in range(count)]
    values = [count * whole - (count - 1) * one for one in without if one is not None]
    if len(values) < count:
        return None
    middle = sum(values) / count
    error = sqrt(sum((value - middle) ** 2 for value in values) / (count - 1) / count)
    reach = t_quantile(count - 1) * error
    return max(lowest, whole - reach), min(1.0, whole + reach)
