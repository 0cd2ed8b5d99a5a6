"""Figures from counts and arrays: pure functions that touch no file."""

from .interval import wilson

__all__ = ["wilson"]
