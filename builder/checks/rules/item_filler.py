"""An option is no answer that anybody would choose.

What: an option is empty but for signs, a joke, or ends in an exclamation mark.

Why: nobody chooses it, so the question has one option fewer than it seems, and is easier to guess.

Example:

    options: [{text: The hips}, {text: The knees, key: true}, {text: "The coach's new shoes!"}]

Cure: write what people who err would choose, or leave the option out. (Haladyna and others 2002, plausible
distractors, no humour.)
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..items import asked
from ..scope import Fault, Scope

CODE = "item-filler"

_JOKE = re.compile(
    r"!\s*\Z|\b(ha ?ha|lol|abracadabra|magic|unicorns?|aliens?|wizards?)\b|[\U0001f300-\U0001faff]",
    re.IGNORECASE,
)


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        for place in one.wrong:
            text = one.texts[place]
            if not any(letter.isalnum() for letter in text) or _JOKE.search(text):
                yield one.fault(
                    f"nobody would choose “{text}”.",
                    "Write what people who err would choose, or leave it out.",
                    "options",
                    place,
                    "text",
                )
