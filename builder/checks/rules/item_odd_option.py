"""One option has another form than the rest.

What: all options but one are numbers, or are full sentences, or are a few words, or begin with the same
word.

Why: the one that looks different draws the eye, whether it is right or wrong.

Example:

    options: [{text: 3 trials}, {text: 5 trials}, {text: As many as it takes, key: true}]

Cure: give all options the same form. (Haladyna and others 2002, homogeneous content and grammar.)
"""

from __future__ import annotations

from collections.abc import Iterator

from ..items import Asked, amounts, asked, words
from ..scope import Fault, Scope

CODE = "item-odd-option"

_SENTENCE, _FEW, _SHORT = 8, 3, 6
"""Words of an option that is a sentence, of one that is not, and of one in which a number stands out."""


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        place = _odd(one) if len(one.texts) >= 3 else None
        if place is not None:
            yield one.fault(
                f"the option “{one.texts[place]}” has another form than the rest.",
                "Give all options the same form.",
                "options",
                place,
                "text",
            )


def _odd(one: Asked) -> int | None:
    """The place of the only option that differs from all others."""
    lengths = [_length(text) for text in one.texts]
    # In longer options a number is one word among others.
    numbers = [bool(amounts(text)) for text in one.texts if len(words(text)) <= _SHORT]
    traits = (
        numbers if len(numbers) == len(one.texts) else [],
        [text.endswith(".") for text in one.texts],
        [text[:1].isupper() for text in one.texts if text[:1].isalpha()],
        [length for length in lengths if length is not None],
    )
    for trait in traits:
        if len(trait) == len(one.texts):
            for place, has in enumerate(trait):
                if trait.count(has) == 1:
                    return place
    return None


def _length(text: str) -> bool | None:
    """Whether it is as long as a sentence, or short; None in between."""
    count = len(words(text))
    return True if count >= _SENTENCE else False if count <= _FEW else None
