"""One question gives away the answer to another.

What: the right option of a question stands word for word in the text of another question.

Why: who is asked both has read the answer to one of them. They stay apart only where a quiz says so.

Example:

    - {id: q-one, stem: Why do you raise the heels on a wedge?, ...}
    - {id: q-two, stem: What helps?, options: [{text: Raise the heels on a wedge, key: true}, ...]}

Cure: word one of them anew, or name both in a group under `never_with` in each quiz that draws them.
(Haladyna and others 2002, keep items independent.)
"""

from __future__ import annotations

from collections.abc import Iterator

from ..items import asked, words
from ..scope import Fault, Scope

CODE = "item-gives-away"

_LEAST = 3
"""Words of an answer that is noticed elsewhere."""


def check(scope: Scope) -> Iterator[Fault]:
    known = list(asked(scope))
    stems = {one.question.id: " ".join(words(one.stem)) for one in known}
    for one in known:
        answer = " ".join(words(one.texts[one.key])) if one.key is not None else ""
        if len(answer.split()) < _LEAST:
            continue
        for name, stem in stems.items():
            both = {one.question.id, name}
            if len(both) == 2 and f" {answer} " in f" {stem} " and _meet(scope, both):
                yield one.fault(
                    f"its answer stands in the text of {name}.",
                    "Word one of them anew, or keep them apart by `never_with` in the quiz.",
                    "options",
                    one.key or 0,
                    "text",
                )
                break


def _meet(scope: Scope, both: set[str]) -> bool:
    """Whether some quiz may ask both; so they may in a course without quizzes."""
    quizzes = scope.course.quizzes
    pools = {name: {item.id for item in scope.answers.pools[name]} for name in quizzes}
    asking = [quiz for name, quiz in quizzes.items() if both <= pools[name]]
    apart = [quiz for quiz in asking if any(both <= set(group) for group in quiz.never_with)]
    return not quizzes or len(apart) < len(asking)
