"""One question gives away the answer to another.

What: all words of the right option that carry meaning stand in the text of another question on the same
matter.

Why: who is asked both has read the answer to one of them. They stay apart only where a quiz says so.

Example:

    - {id: q-one, stem: Why do you raise the heels on a wedge?, ...}
    - {id: q-two, stem: What helps?, options: [{text: Raise the heels on a wedge, key: true}, ...]}

Cure: word one of them anew, or name both in a group under `never_with` in each quiz that draws them.
(Haladyna and others 2002, keep items independent.)
"""

from __future__ import annotations

from collections.abc import Iterator

from ..items import amounts, asked, content
from ..scope import Fault, Scope

CODE = "item-gives-away"

_SHARED = 2
"""Words with meaning, besides those of the answer, that two questions on one matter share."""


def check(scope: Scope) -> Iterator[Fault]:
    known = list(asked(scope))
    stems = {one.question.id: _said(one.stem) for one in known}
    for one in known:
        answer = _said(one.texts[one.key]) if one.key is not None else set()
        if not answer or answer <= stems[one.question.id]:
            continue
        for name, stem in stems.items():
            both = {one.question.id, name}
            shared = (stem & stems[one.question.id]) - answer
            if len(both) == 2 and answer <= stem and len(shared) >= _SHARED and _meet(scope, both):
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


def _said(text: str) -> set[str]:
    """The words and numbers of a text that carry meaning."""
    return content(text) | {str(number) for number in amounts(text)}
