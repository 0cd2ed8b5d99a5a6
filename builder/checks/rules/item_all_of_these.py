"""An option stands for all of the others.

What: an option says "all of the above", "both of these", "A and B", or the like.

Why: who knows that two options are right, or that one is wrong, has the answer without knowing the rest; and
options are shown in an order drawn by chance, so "above" means nothing.

Example:

    options: [{text: The hips}, {text: The knees}, {text: All of the above, key: true}]

Cure: ask with `kind: several`, or write an option of its own. (Haladyna and others 2002; NBME 2020.)
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..items import asked
from ..scope import Fault, Scope

CODE = "item-all-of-these"

_ALL = re.compile(
    r"(all|both|each|any|every one|everything)( three| four| two)?( of)? (the )?"
    r"(above|below|these|those|them|others?|options|answers|mentioned|listed)\b.*"
    r"|(all|both)( of (them|these))? (are|is) (right|correct|true)\b.*"
    r"|(both )?\(?[a-e1-5]\)?( and |, )\(?[a-e1-5]\)?( and \(?[a-e1-5]\)?)?( only)?"
    r"|(answers?|options?) [a-e1-5] and [a-e1-5].*",
    re.IGNORECASE,
)


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        for place, text in enumerate(one.texts):
            if _ALL.fullmatch(text.rstrip(".")):
                yield one.fault(
                    f"the option “{text}” stands for others.",
                    "Ask with `kind: several`, or write an option of its own.",
                    "options",
                    place,
                    "text",
                )
