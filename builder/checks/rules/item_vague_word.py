"""An option says how often in a word that everybody reads differently.

What: an option says usually, often, sometimes, rarely, generally or the like.

Why: one reader's often is another one's sometimes, so the right answer hangs on how a word is read; and
test-wise people take the vague option for the safe one.

Example:

    options: [{text: The heels often lift}, {text: The heels lift late}]

Cure: say how often in a number, or leave the word out. (NBME 2020, vague frequency terms.)
"""

from __future__ import annotations

from collections.abc import Iterator

from ..items import asked, phrase_in
from ..scope import Fault, Scope

CODE = "item-vague-word"

_WORDS = (
    r"usually|often|sometimes|frequently|rarely|seldom|occasionally|generally|commonly|typically|normally|mostly|"
    r"regularly|most of the time|many times|now and then|as a rule|"
    r"in most cases|hardly ever|from time to time"
)


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        for place, text in enumerate(one.texts):
            match = phrase_in(text, _WORDS)
            if match:
                yield one.fault(
                    f"“{match[0]}” means something else to every reader.",
                    "Say how often in a number, or leave the word out.",
                    "options",
                    place,
                    "text",
                )
                break
