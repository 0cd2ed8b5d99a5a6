"""Small words of SVG: escaped, rounded, classes only."""

from __future__ import annotations

import html
from fractions import Fraction
from functools import lru_cache

from markupsafe import Markup

Real = Fraction | int | float


_for_many = lru_cache(maxsize=8192)
"""The same places are drawn for many clients."""


@_for_many
def place(value: Real) -> str:
    """A coordinate, rounded to a tenth before it is written, so that every machine writes the same."""
    if isinstance(value, int):
        return str(value)
    tenths = round(float(value) * 10)
    whole, part = divmod(abs(tenths), 10)
    sign = "-" if tenths < 0 else ""
    return f"{sign}{whole}.{part}" if part else f"{sign}{whole}"


def element(name: str, css: str, **numbers: Real) -> str:
    """An empty element; `x1=3` and the like are coordinates."""
    attributes = "".join(f' {key}="{place(value)}"' for key, value in numbers.items())
    return f'<{name} class="{css}"{attributes}/>'


@_for_many
def path(css: str, *steps: str | Real) -> str:
    """A path from letters and coordinates: `path("way", "M", 0, 0, "H", 10)`."""
    way = " ".join([step if isinstance(step, str) else place(step) for step in steps])
    return f'<path class="{css}" d="{way}"/>'


@_for_many
def text(css: str, words: str, x: Real, y: Real) -> str:
    return f'<text class="{css}" x="{place(x)}" y="{place(y)}">{html.escape(words, quote=False)}</text>'


def drawing(
    css: str, width: Real, height: Real, title: str, parts: list[str], description: str = ""
) -> Markup:
    """A whole figure. `title` is its text alternative; `description` says the rest in words."""
    more = f"<desc>{html.escape(description, quote=False)}</desc>" if description else ""
    return Markup(
        f'<svg class="figure {css}" role="img" viewBox="0 0 {place(width)} {place(height)}" '
        f'width="{place(width)}" height="{place(height)}">'
        f"<title>{html.escape(title, quote=False)}</title>{more}{''.join(parts)}</svg>"
    )


def wrap(words: str, limit: int) -> list[str]:
    """Words broken into lines of at most `limit` characters; a longer word stands alone."""
    lines: list[str] = []
    for word in words.split():
        if lines and len(lines[-1]) + 1 + len(word) <= limit:
            lines[-1] += " " + word
        else:
            lines.append(word)
    return lines
