"""An option stands for none of the others.

What: an option says "none of the above", "neither", "something else", or the like.

Why: who picks it has shown that they know what is wrong, not what is right; and options are shown in an
order drawn by chance, so "above" means nothing.

Example:

    options: [{text: The hips}, {text: The knees}, {text: None of the above}]

Cure: leave it out; three options are enough. (Haladyna and others 2002; NBME 2020.)
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..items import asked
from ..scope import Fault, Scope

CODE = "item-none-of-these"

_NONE = re.compile(
    r"(none|neither|not any|no one)( one)?( of)? ?(the )?"
    r"(above|below|these|those|them|two|others?|options|answers|mentioned|listed)?"
    r"( is (right|correct|true))?( applies| apply)?"
    r"|something else( entirely)?|(some|an)other (answer|option)|any other|other"
    r"|no (right|correct) (answer|option).*"
    r"|(i )?(do not|don't) know|not sure|it depends|nothing of the kind",
    re.IGNORECASE,
)


def check(scope: Scope) -> Iterator[Fault]:
    for one in asked(scope):
        for place, text in enumerate(one.texts):
            if _NONE.fullmatch(text.rstrip(".")):
                yield one.fault(
                    f"the option “{text}” says only that the others are wrong.",
                    "Leave it out; three options are enough.",
                    "options",
                    place,
                    "text",
                )
