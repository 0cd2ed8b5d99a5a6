"""Two options may mean the same.

What: two options share nearly all their words that carry meaning.

Why: where both mean the same, neither can be the right one, and test-wise people cross both out. Only
somebody who reads them can tell, so this is a hint.

Example:

    options: [{text: Slow the breath out}, {text: Let the breath go out slowly}, {text: Hold it, key: true}]

Cure: read both. If they mean the same, change one. (Haladyna and others 2002, independent choices.)
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from ..items import amounts, asked, content
from ..scope import Fault, Scope

CODE = "item-alike-options"

_SHARE = 0.75
_LEAST = 2
"""Words with meaning that an option has at least."""


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        found = [content(text) for text in one.texts]
        for first, second in combinations(range(len(found)), 2):
            a, b = found[first], found[second]
            numbers = amounts(one.texts[first]) == amounts(one.texts[second])
            if min(len(a), len(b)) >= _LEAST and numbers and len(a & b) >= _SHARE * len(a | b):
                yield one.fault(
                    f"“{one.texts[first]}” and “{one.texts[second]}” may mean the same.",
                    "Read both, and change one if they do.",
                    "options",
                    second,
                    "text",
                )
                break
