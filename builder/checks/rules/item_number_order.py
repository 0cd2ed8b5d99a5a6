"""Options with numbers cannot be shown in order.

What: every option begins with a number, but not in one unit, so that they are not put in order of size.

Why: readers look for a number along a line; who has to hunt for it makes mistakes that say nothing about
coaching.

Example:

    options: [{text: 2 weeks}, {text: 10 days, key: true}, {text: 1 month}]

Cure: use one unit for all. Numbers and ranges of one unit are put in order by the builder, however you write
them. (Haladyna and others 2002, logical or numerical order.)
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.questions.options import sizes

from ..items import asked, words
from ..scope import Fault, Scope

CODE = "item-number-order"

_STARTS = re.compile(r"(about |at least |at most |up to |[<>\u2264\u2265]\s?)?[0-9]", re.IGNORECASE)
_SHORT = 2
"""Words of an option that is a number and its unit."""


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        are_numbers = all(_STARTS.match(text) and len(words(text)) <= _SHORT for text in one.texts)
        if are_numbers and not sizes(one.texts):
            yield one.fault(
                "its numbers are not of one unit, so they cannot be put in order.",
                "Use one unit for all options.",
                "options",
            )
