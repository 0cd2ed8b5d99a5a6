"""Ranges of numbers overlap.

What: a number that one option admits is admitted by another one as well.

Why: where both ranges hold the true number, both options are right.

Example:

    options: [{text: 10 to 20}, {text: 20 to 30, key: true}, {text: 30 to 40}]

Cure: let each range begin behind the end of the one before: 10 to 19, 20 to 29. (Haladyna and others 2002,
choices that overlap.)
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations

from ..items import amounts, asked
from ..scope import Fault, Scope

CODE = "item-overlap"

_NUMBER = r"([0-9]+(?:[.,][0-9]+)?)"
_RANGE = re.compile(
    rf"(?:from |between )?{_NUMBER}[^0-9]{{0,12}}?(?: to | and |\s?[-\u2013]\s?| or up to ){_NUMBER}",
    re.IGNORECASE,
)
_BELOW = re.compile(
    r"(at most|up to|no more than|(?:less|fewer|lower) than|below|under)\b|\bor (less|fewer|lower|below)\b",
    re.I,
)
_ABOVE = re.compile(
    r"(at least|(?:more|higher) than|above|over)\b|\bor (more|higher|above)\b|\bupwards?\b", re.I
)
_STRICT = re.compile(r"(?<!no more )than\b|(?<!or )\b(below|under|above|over)\b", re.IGNORECASE)
_FAR = 10**9


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        spans = {place: span for place, text in enumerate(one.texts) if (span := _span(text))}
        for (_, (low, high)), (place, (first, last)) in combinations(spans.items(), 2):
            if max(low, first) <= min(high, last):
                yield one.fault(
                    f"“{one.texts[place]}” overlaps with another option.",
                    "Let each range begin behind the end of the one before.",
                    "options",
                    place,
                    "text",
                )
                break


def _span(text: str) -> tuple[float, float] | None:
    """The least and the greatest number that an option admits, where it is a range."""
    found = _RANGE.match(text)
    if found:
        low, high = (float(part.replace(",", ".")) for part in found.groups())
        return (low, high) if low < high else None
    numbers = amounts(text)
    if len(numbers) != 1:
        return None
    number = float(numbers[0])
    bit = 1e-6 if _STRICT.search(text) else 0.0
    if _BELOW.search(text):
        return -_FAR, number - bit
    return (number + bit, _FAR) if _ABOVE.search(text) else None
