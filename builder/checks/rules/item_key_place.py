"""The right option stands in one place too often.

What: over all written questions with as many options, the right one stands, as learners see them, in one
place so often that chance would do so less than once in a thousand banks.

Why: people notice, and pick the place.

Example:

    options: [{text: ..., key: true}, ...]      # and so in 18 of 20 questions, as shown

Cure: the order is drawn from the question's id and the texts of its options; change a word in some of them.
(Haladyna and others 2002, vary the location of the right answer.)
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from math import comb

from builder.questions.options import shown

from ..items import Asked, asked
from ..scope import Fault, Scope

CODE = "item-key-place"

RARE = 0.001


def check(scope: Scope) -> Iterator[Fault]:
    places: dict[int, list[tuple[int, Asked]]] = defaultdict(list)
    for one in asked(scope):
        if one.key is not None:
            order = shown(one.question.id, [option.text for option in one.question.options])
            places[len(order)].append((order.index(one.question.options[one.key].text), one))
    for options, found in places.items():
        for place in range(options):
            count = sum(one == place for one, _ in found)
            if options > 1 and options * _at_least(count, len(found), 1 / options) < RARE:
                _, last = next(one for one in reversed(found) if one[0] == place)
                yield last.fault(
                    f"of {len(found)} questions with {options} options, the right one stands in place "
                    f"{place + 1} in {count}.",
                    "Change a word in some of their options, and they are put in another order.",
                    "options",
                )


def _at_least(count: int, tried: int, share: float) -> float:
    """The chance of as many or more, each with the same share (binomial distribution)."""
    return sum(comb(tried, n) * share**n * (1 - share) ** (tried - n) for n in range(count, tried + 1))
