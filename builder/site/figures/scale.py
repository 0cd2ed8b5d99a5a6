"""One number's scale from left to right, and the hatching on it."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, lru_cache

from builder.course import NumberScale

from .svg import Real, element, path

WIDTH, INSET = 320, 12
ADVANCE = 7.2
"""About the width of a digit in the figure's type, to keep labels apart."""
_GAP = 5


def across(scale: NumberScale) -> Callable[[Real], float]:
    """Where a value stands on a scale; at an end where it lies beyond."""
    start, stop = float(scale.start), float(scale.stop)

    def x(value: Real) -> float:
        share = (float(value) - start) / (stop - start)
        return INSET + min(max(share, 0.0), 1.0) * (WIDTH - 2 * INSET)

    return x if scale.stop > scale.start else lambda value: INSET


@cache
def axis(base: Real) -> str:
    """The scale itself with its two ends."""
    ends = (part for x in (INSET, WIDTH - INSET) for part in ("M", x, base - 4, "V", base + 4))
    return path("scale", "M", INSET, base, "H", WIDTH - INSET, *ends)


def within(x: float, label: str) -> float:
    """The middle of a label at `x`, moved so that it stays in the figure."""
    half = len(label) * ADVANCE / 2
    return min(max(x, half + 2), WIDTH - half - 2)


@lru_cache(maxsize=4096)  # few values can be recorded, so that clients share their bands
def hatched(left: float, right: float, top: float, height: float) -> tuple[str, ...]:
    """A hatched rectangle, drawn stroke by stroke: a pattern would need an id of its own on the page."""
    right = max(right, left + 1)
    strokes: list[str | Real] = []
    foot = left - height + _GAP
    while foot < right:
        start, end = max(foot, left), min(foot + height, right)
        if end > start:
            strokes += ["M", start, top + height - (start - foot), "L", end, top + height - (end - foot)]
        foot += _GAP
    drawn = element("rect", "doubt", x=left, y=top, width=right - left, height=height)
    return (drawn, path("hatch", *strokes)) if strokes else (drawn,)
