"""The right option is much longer than the others.

What: the right option has half as many letters again as the longest wrong one, and twelve more at least.

Why: writers make the right option complete, so test-wise people pick the longest. They pass without knowing.

Example:

    options:
      - {text: "Raise the heels on a wedge, and look again at the whole movement", key: true}
      - {text: Widen the stance}
      - {text: Stop}

Cure: shorten it, put what is sure into `why`, or make the wrong ones as complete. (Haladyna and others 2002,
guideline on the length of choices.)
"""

from __future__ import annotations

from collections.abc import Iterator

from ..items import asked
from ..scope import Fault, Scope

CODE = "item-long-key"

TIMES = 1.5
MORE = 12


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        if one.key is None or not one.wrong:
            continue
        size = len(one.texts[one.key])
        longest = max(len(one.texts[place]) for place in one.wrong)
        if size >= TIMES * longest and size - longest >= MORE:
            yield one.fault(
                f"the right option has {size} letters, the longest wrong one {longest}.",
                "Shorten it, or make the wrong ones as complete.",
                "options",
                one.key,
                "text",
            )
