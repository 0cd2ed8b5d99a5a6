"""A question asks for what is not so, and does not say it loudly.

What: the asking sentence of a question holds not, never, least likely or except, and the word is not in
capitals, bold or italics.

Why: who reads fast misses the word and answers the opposite. That says nothing about their coaching.

Example:

    stem: Which of these is not a reason to stop?

Cure: ask for what is so. Where that cannot be, write the word in capitals: NOT. (Haladyna and others 2002,
guideline on negative wording.)
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..items import asked, phrase_in, plain
from ..scope import Fault, Scope

CODE = "item-negative-stem"

_LEAST = r"least (?:likely|suitable|appropriate|important|helpful|useful|safe)"
_WORDS = rf"not|never|{_LEAST}|except|excluding|cannot|isn't|aren't|doesn't|don't|shouldn't|wouldn't"
_ASIDE = re.compile(
    r"\b(if|when|because|that|although|though|while|after|before|since|unless|as|so|and|but)\b.*|,.*",
    re.I | re.S,
)
"""What follows such a word tells of the case, not of what is asked."""


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        asking = plain(one.asking)
        found = phrase_in(_ASIDE.sub("", asking), _WORDS) or phrase_in(asking, "except|excluding")
        if found and not found[0].isupper():
            yield one.fault(
                f"it asks for what is not so, and “{found[0]}” is easily missed.",
                "Ask for what is so, or write the word in capitals.",
                "stem",
            )
