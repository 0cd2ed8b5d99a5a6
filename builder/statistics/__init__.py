"""Figures from counts and arrays: pure functions that touch no file."""

from .agreement import coefficient, over_clients, pairs, share_alike
from .chances import Chance, Row, chance
from .interval import clustered, wilson

__all__ = [
    "Chance",
    "Row",
    "chance",
    "clustered",
    "coefficient",
    "over_clients",
    "pairs",
    "share_alike",
    "wilson",
]
