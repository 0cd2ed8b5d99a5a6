"""A question has too few options, or more than anybody weighs.

What: a question has fewer than three options, where they are not yes and no; or more than five, where one
alone is right.

Why: of two, every second guess is right. Few writers find more than three wrong options that somebody would
choose; the rest only take time.

Example:

    options: [{text: The hips}, {text: The knees, key: true}]

Cure: write three or four options. Three are enough (M. C. Rodriguez, Educational Measurement: Issues and
Practice 2005;24(2):3-13).
"""

from __future__ import annotations

from collections.abc import Iterator

from ..items import asked, words
from ..scope import Fault, Scope

CODE = "item-option-count"

FEWEST, MOST = 3, 5
_PAIRS = ({"yes", "no"}, {"true", "false"}, {"left", "right"}, {"more", "less"})


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        count = len(one.texts)
        firsts = {(words(text) or [""])[0] for text in one.texts}
        if (count < FEWEST and firsts not in _PAIRS) or (count > MOST and one.question.kind == "one"):
            yield one.fault(
                f"it has {count} options.", "Write three or four options; three are enough.", "options"
            )
