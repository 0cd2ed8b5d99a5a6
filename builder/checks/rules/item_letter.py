"""A text speaks of an option by its letter or place.

What: a question, an option or a reason says "option B", "A is too much", "the first answer" or the like.

Why: options are shown in an order drawn by chance, so the letter or place that you wrote is another one for
learners.

Example:

    options: [{text: To relax it, why: See the reason at C.}, ...]

Cure: say it in the words of the option.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..items import Asked, asked
from ..scope import Fault, Scope

CODE = "item-letter"

_BEFORE = r"[Oo]ptions?|[Aa]nswers?|[Cc]hoices?"
_LETTER = re.compile(
    rf"\b(?:{_BEFORE}|[Ll]etters?|[Ss]ee|[Uu]nlike|[Ll]ike|[Aa]s (?:in|for|with)|[Tt]han|[Nn]ot|[Tt]o|at) "
    r"\(?[B-E]\)?(?=[\s.,;:)]|\Z)"
    rf"|\b(?:{_BEFORE}) \(?(?:A|[1-5])\)?(?=[\s.,;:)]|\Z)"
    r"|^\(?[A-E]\)? (?:is|are|was|would|names?|gives?|says?|has|shows?|fits?)\b|\b[B-E] is\b"
    r"|\b(?:the )?(?:first|second|third|fourth|last) (?:option|answer|choice)\b",
)


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        said = [("stem", one.stem), ("why", one.question.why)]
        for key, text in said:
            if _LETTER.search(text):
                yield _fault(one, text, key)
        for place, option in enumerate(one.question.options):
            for key, text in (("text", option.text), ("why", option.why)):
                if _LETTER.search(text) and text != one.question.why:
                    yield _fault(one, text, "options", place, key)


def _fault(one: Asked, text: str, *keys: str | int) -> Fault:
    found = _LETTER.search(text)
    assert found is not None
    return one.fault(
        f"“{found[0].strip()}” speaks of an option by its place, which is another one for learners.",
        "Say it in the words of the option.",
        *keys,
    )
