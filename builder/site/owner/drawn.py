"""The drawings of the owner's pages. What they show stands beside them in figures."""

from __future__ import annotations

from markupsafe import Markup

from ..figures.svg import element, path

_WIDE = 120


def share_bar(share: float, low: float, high: float) -> Markup:
    """A share of all from left to right, and below it the interval."""
    start, end = low * _WIDE, high * _WIDE
    interval = path("range", "M", start, 9, "V", 15, "M", start, 12, "H", end, "M", end, 9, "V", 15)
    return _drawn("share-bar", 16, [*_bar(share, "share"), interval])


def count_bar(count: int, of: int, right: bool) -> Markup:
    """How many of all chose an answer; the right one is filled, any other an outline."""
    return _drawn("count-bar", 8, _bar(count / of, "share" if right else "other"))


def _bar(share: float, css: str) -> list[str]:
    return [
        element("rect", "ground", x=0.5, y=0.5, width=_WIDE - 1, height=6),
        element("rect", css, x=0.5, y=0.5, width=share * (_WIDE - 1), height=6),
    ]


def _drawn(css: str, high: int, parts: list[str]) -> Markup:
    size = f'viewBox="0 0 {_WIDE} {high}" width="{_WIDE}" height="{high}"'
    return Markup(f'<svg class="{css}" {size} aria-hidden="true">{"".join(parts)}</svg>')
