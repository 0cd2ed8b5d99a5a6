"""A question asks only which option is true.

What: the question is "Which of these is true?" or the like, without a subject of its own.

Why: each option is then a question by itself; who errs shows nothing in particular.

Example:

    stem: Which of the following statements is correct?

Cure: put the subject into the question: "What does a lifted heel show?" Or write one question for each
option. (NBME 2020, a focused lead-in.)
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..items import asked
from ..scope import Fault, Scope

CODE = "item-unfocused"

_WHICH = r"(which|what)( one)?( of (the|these|those))?( following| below| above)?"
_THING = r"( (statements?|sentences?|options?|answers?|claims?|ones?|points?))?( (here|below|above))?"
_IS = r" (is|are|would be|do you think is|seems)( most| more| the most)?"
_TRUE = r" (true|correct|right|false|wrong|incorrect|accurate|best)( (here|statement|answer))?"
_ABOUT = r"( (about|of|for|regarding|concerning) .{1,40})?"
_PICK = r"(choose|pick|mark|select|tick) (the )?(one )?(true|correct|right|best|false) "
_PICK += r"(statement|answer|option)s?"
_UNFOCUSED = re.compile(
    rf"({_WHICH}{_THING}{_IS}{_TRUE}{_ABOUT}|{_PICK}|true or false|what do you think|what is (it|this))[?.]?",
    re.IGNORECASE,
)


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        if _UNFOCUSED.fullmatch(one.asking.strip()):
            yield one.fault(
                "it asks only which option is true.",
                "Put the subject into the question, so that it can be answered without the options.",
                "stem",
            )
