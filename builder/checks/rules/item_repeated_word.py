"""A word of the question comes again in the right option alone.

What: a word that carries meaning stands in the question and in the right option, and in no wrong one.

Why: readers pick the option that sounds like the question.

Example:

    stem: Which sign of dizziness ends the drill?
    options: [{text: "Dizziness that does not pass", key: true}, {text: A yawn}, {text: A warm face}]

Cure: use another word, or use it in the wrong options too. (Haladyna and others 2002, clang associations.)
"""

from __future__ import annotations

from collections.abc import Iterator

from ..items import asked, content, stemmed, words
from ..scope import Fault, Scope

CODE = "item-repeated-word"

_LEAST = 4
"""Letters of a word that is noticed."""


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        if one.key is None or len(one.texts) < 3:
            continue
        elsewhere = set().union(*(content(one.texts[place]) for place in one.wrong))
        again = sorted(
            word
            for word in content(one.asking) & content(one.texts[one.key]) - elsewhere
            if len(word) >= _LEAST
        )
        if again:
            said = next(word for word in words(one.texts[one.key]) if stemmed(word) == again[0])
            yield one.fault(
                f"“{said}” stands in the question and in the right option alone.",
                "Use another word, or use it in the wrong options too.",
                "options",
                one.key,
                "text",
            )
