"""An option is given away by a word such as always or never.

What: some options say always, never, completely, impossible or the like, and others do not.

Why: few things are so without exception, so test-wise people cross such options out.

Example:

    options: [{text: It always hurts}, {text: It may lift the heel, key: true}]

Cure: leave the word out, or use such words in all options alike. (NBME 2020, absolute terms.)
"""

from __future__ import annotations

from collections.abc import Iterator

from ..items import asked, phrase_in
from ..scope import Fault, Scope

CODE = "item-absolute-word"

_WORDS = (
    r"always|never|completely|entirely|totally|absolutely|impossible|invariably|nobody|no one|"
    r"everyone|everybody|"
    r"every (?:client|time|case|coach|person|single)|all (?:clients|people|cases|of them)|"
    r"in all cases|in every case|"
    r"without exception|under no circumstances|guarantees?|guaranteed"
)


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        found = {place: match for place, text in enumerate(one.texts) if (match := phrase_in(text, _WORDS))}
        if 0 < len(found) < len(one.texts):
            place, match = next(iter(found.items()))
            yield one.fault(
                f"“{match[0]}” in an option gives it away.",
                "Leave the word out, or use such words in all options alike.",
                "options",
                place,
                "text",
            )
