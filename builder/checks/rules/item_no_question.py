"""A question asks nothing.

What: the text of a question has no question mark, asks for nothing, and is no sentence that options
complete.

Why: readers have to guess from the options what is wanted.

Example:

    stem: Knee to wall
    options: [{text: It measures the ankle, key: true}, {text: It measures the hip}]

Cure: write a question that somebody could answer before they see the options. (Haladyna and others 2002,
state the central idea in the stem.)
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..items import asked, words
from ..scope import Fault, Scope

CODE = "item-no-question"

_TOLD = re.compile(
    r"^(choose|pick|name|say|find|mark|put|match|tick|select|decide|order|sort|give|complete|read|look|tell|"
    r"work out)\b",
    re.IGNORECASE,
)
_OPEN = re.compile(
    r"\b(is|are|was|were|to|by|with|of|in|on|at|for|from|because|that|when|if|a|an|the|than|as|you|do|does|"
    r"should|must|will|can|needs?|means|shows?|measures?)[:\u2026 ._]*\Z",
    re.IGNORECASE,
)
_LEAST = 5
"""Words of a sentence that options complete."""


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        is_open = _OPEN.search(one.asking) and len(words(one.asking)) >= _LEAST
        if not ("?" in one.stem or _TOLD.match(one.asking) or is_open):
            hint = "Write a question that can be answered without the options."
            yield one.fault("it asks nothing.", hint, "stem")
