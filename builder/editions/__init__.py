"""Editions of a course: what is written down of it to tell later what has changed. Pure."""

from .edition import EditionData, edition_of
from .mark import label, mark

__all__ = ["EditionData", "edition_of", "label", "mark"]
