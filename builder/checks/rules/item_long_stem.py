"""A question tells much more than it asks about.

What: the text of a question has more than sixty words.

Why: readers look for what matters, under time; what is told only to teach belongs into a lesson, and what is
told of a client into the client.

Example:

    stem: (four sentences on why measuring matters) Where does the moving arm of the goniometer lie?

Cure: leave out what the answer does not hang on; put a story into a client and name it as `case`. (Haladyna
and others 2002, avoid window dressing.)
"""

from __future__ import annotations

from collections.abc import Iterator

from ..items import asked, words
from ..scope import Fault, Scope

CODE = "item-long-stem"

MOST = 60


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        count = len(words(one.stem))
        if count > MOST:
            hint = "Leave out what the answer does not hang on, or put it into a client or a lesson."
            yield one.fault(f"its text has {count} words.", hint, "stem")
