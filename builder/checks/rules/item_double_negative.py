"""A question asks for what is not so, and an option denies as well.

What: the question asks for what is NOT so, and an option holds not, no or never.

Why: two denials in one thought have to be turned round twice; readers who know the answer miss it.

Example:

    stem: Which of these is NOT true of a warm-up?
    options: [{text: It does not replace practice, key: true}, ...]

Cure: ask for what is so, or let no option deny. (Haladyna and others 2002, guideline on negative wording.)
"""

from __future__ import annotations

from collections.abc import Iterator

from ..items import asked, phrase_in
from ..scope import Fault, Scope

CODE = "item-double-negative"

_DENIES = r"not|never|no|nothing|nobody|none|cannot|without|isn't|aren't|doesn't|don't|didn't|won't|can't"


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        if phrase_in(one.asking, "NOT|EXCEPT|NEVER|LEAST|except|not|never"):
            for place, text in enumerate(one.texts):
                if phrase_in(text, _DENIES):
                    yield one.fault(
                        f"it asks for what is not so, and “{text}” denies as well.",
                        "Ask for what is so, or let no option deny.",
                        "options",
                        place,
                        "text",
                    )
                    break
