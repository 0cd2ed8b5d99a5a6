"""A question asks for taste.

What: the question asks what readers like, prefer, feel or find nicest.

Why: no answer to that is wrong, so nobody can be marked for it.

Example:

    stem: Which first position do you like best?

Cure: ask for what can be shown to be right, or say by whose rule: "By the table of this course, ...".
(Haladyna and others 2002, avoid opinion-based items.)
"""

from __future__ import annotations

from collections.abc import Iterator

from ..items import asked, phrase_in
from ..scope import Fault, Scope

CODE = "item-opinion"

_TASTE = (
    r"do you (?:like|prefer|enjoy|love|feel|believe|favou?r)|would you (?:like|prefer|enjoy)|"
    r"you find (?:the )?(?:most |least )?"
    r"(?:nicest|nice|best|better|easiest|pleasant|interesting|useful|helpful|beautiful)|"
    r"in your (?:own )?(?:opinion|view|experience)|your (?:own )?(?:favou?rite|personal|taste|opinion)|"
    r"what do you think of|nicest|most (?:fun|beautiful|interesting)"
)


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        found = phrase_in(one.asking, _TASTE)
        if found:
            yield one.fault(
                f"“{found[0]}” asks for taste, and no answer to that is wrong.",
                "Ask for what can be shown to be right, or say by whose rule.",
                "stem",
            )
