"""An option is too long, or options begin alike.

What: an option has more than thirty words, or all options begin with the same three words or more.

Why: options are read side by side on a phone; what they share belongs into the question, where it is read
once.

Example:

    options:
      - {text: The client should raise the heels}
      - {text: The client should widen the stance}
      - {text: The client should stop}

Cure: put what they share into the question, and the reasons into `why`. (Haladyna and others 2002, keep
choices short; NBME 2020.)
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import takewhile

from ..items import asked, words
from ..scope import Fault, Scope

CODE = "item-long-option"

MOST = 30
ALIKE = 3


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        sizes = [len(words(text)) for text in one.texts]
        shared = sum(
            1
            for _ in takewhile(lambda alike: len(set(alike)) == 1, zip(*map(words, one.texts), strict=False))
        )
        if max(sizes) > MOST:
            place = sizes.index(max(sizes))
            yield one.fault(
                f"an option has {max(sizes)} words.",
                "Put the reasons into `why`, and what all options share into the question.",
                "options",
                place,
                "text",
            )
        elif len(one.texts) > 2 and shared >= ALIKE:
            start = " ".join(one.texts[0].split()[:shared])
            yield one.fault(
                f"all options begin with “{start}”.",
                "Put into the question what all of them share.",
                "options",
            )
