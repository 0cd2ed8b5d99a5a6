"""The grammar of the question fits some options and not others.

What: the question ends in "a" or "an" and only some options can follow it, or it speaks of one thing or of
several and only the right option does so too.

Why: readers find the answer by ear.

Example:

    stem: "To raise the heels you take an"
    options: [{text: wedge}, {text: incline, key: true}, {text: plate}]

Cure: write a question that stands alone, and give all options the same form. (Haladyna and others 2002,
clues by grammar.)
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..items import Asked, asked, words
from ..scope import Fault, Scope

CODE = "item-grammar"

_SEVERAL = re.compile(
    r"\b(which|what)( (of these|two|three))? \w*[^s\W]s (are|were|have|do)\b|\b(are|were)[:\u2026 .]*\Z", re.I
)
_ONE = re.compile(
    r"\b(which|what) (\w*[^s\W] )?(is|was|has|does)( \w+)? (a|an|one)\b|\b(is|was)( a)?[:\u2026 .]*\Z", re.I
)
_ARTICLE = re.compile(r"\b(a|an)[:\u2026 ._]*\Z", re.IGNORECASE)
_LONGEST = 4
"""Words of an option of which the number of its noun can be told."""


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        if _is_cued(one):
            yield one.fault(
                "its grammar fits some options alone.",
                "Write a question that stands alone, and give all options the same form.",
                "stem",
            )


def _is_cued(one: Asked) -> bool:
    asking = one.asking.rstrip("?")
    article = _ARTICLE.search(asking)
    if article:
        fits = [(text[:1].lower() in "aeiou") == (article[1].lower() == "an") for text in one.texts]
        return any(fits) and not all(fits)
    wanted = True if _SEVERAL.search(asking) else False if _ONE.search(asking) else None
    if one.key is None or wanted is None or any(len(words(text)) > _LONGEST for text in one.texts):
        return False
    fits = [_is_plural(text) == wanted for text in one.texts]
    return fits[one.key] and sum(fits) == 1


def _is_plural(text: str) -> bool:
    head = re.split(r"\b(?:of|in|on|at|with|for|to|from)\b", text)[0]
    found = words(head)
    return " and " in text or (bool(found) and re.search(r"[^su]s\Z", found[-1]) is not None)
