"""A question does not say why an option is right or wrong.

What: the right answer has no reason, or a wrong option has no `why`, or it says no more than "wrong".

Why: a wrong answer is the moment at which somebody would learn; without a reason they learn only that they
failed.

Example:

    options: [{text: The hips}, {text: The knees, key: true, why: They come forward.}]    # why not the hips?

Cure: give every wrong option its `why`, and the question or its right option the reason why it holds.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..items import amounts, asked, words
from ..scope import Fault, Scope

CODE = "item-no-reason"


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        options = one.question.options
        if not (one.question.why or any(options[place].why for place in one.keys)):
            yield one.fault("it does not say why the right answer holds.", "Add `why`.", "options")
        elif not any(
            _explains(text) for text in (one.question.why, *(options[place].why for place in one.keys))
        ):
            yield one.fault(
                "its reason says only that the answer is right.", "Say why it is right.", "options"
            )
        bare = [place for place in one.wrong if not _explains(options[place].why)]
        if bare:
            yield one.fault(
                f"“{one.texts[bare[0]]}” does not say why it is wrong.",
                "Give it a `why`.",
                "options",
                bare[0],
                "text",
            )


def _explains(reason: str) -> bool:
    """Whether it says more than that the option is right or wrong."""
    said = [word for word in words(reason) if word not in _VERDICT]
    return len(said) + len(amounts(reason)) > 1


_VERDICT = set(
    words("an answer option choice is it that the this no not right wrong correct incorrect true false")
)
