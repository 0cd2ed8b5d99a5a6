"""A text of the course's wording cannot be used.

What: a text in `wording/` has a name that the builder does not know, fills in something that is not there, or
leaves out something that the builder's text fills in.

Why: learners would read braces, or a question that does not say whom or what it is about. The builder's own
text is used in its place.

Example:

    wording:
      caution-stem: "What does {name} ask of you?"     # the builder fills in {client}

Cure: use the names and the fields that `schemas/README.md` lists. Write `{{` and `}}` for braces that
learners should read.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.problems.nearest import nearest_word
from builder.questions.wording import TEXTS, faults

from ..scope import Fault, Scope

CODE = "wording-broken"


def check(scope: Scope) -> Iterator[Fault]:
    for name, one in scope.course.wording.items():
        for said in faults(name, one.text):
            near = nearest_word(name, TEXTS) if name not in TEXTS else None
            hint = f"Did you mean `{near}`?" if near else f"The builder's text is: {TEXTS.get(name, '...')}"
            if name not in TEXTS and not near:
                hint = "The names are listed in schemas/README.md."
            yield Fault(one.origin.at(), f"wording:{name}", said, " ".join(hint.split()))
