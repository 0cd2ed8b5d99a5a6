"""Figures: SVG from numbers. Pure functions; classes only, so that the stylesheet alone gives colour."""

from .before_after import before_after
from .body import bends, body
from .breath import breath
from .strip import Line, lines_of, strip
from .tree import tree

__all__ = ["Line", "before_after", "bends", "body", "breath", "lines_of", "strip", "tree"]
