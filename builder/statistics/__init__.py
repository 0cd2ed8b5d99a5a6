"""Figures from counts and arrays: pure functions that touch no file."""

from .chances import Chance, Row, chance
from .interval import clustered, wilson

__all__ = ["Chance", "Row", "chance", "clustered", "wilson"]
