"""An option says what it would come to, and there is no client to judge it by.

What: an option of a question has `means`, and the question names no `case`.

Why: whether it is safe to lay somebody on the back depends on who they are. Without a client nobody can tell.

Example:

    - id: q-first-position
      stem: Where do you start?
      options: [{text: On the back, means: {position: back}}, ...]     # and who is it?

Cure: add `case:` with the client whom the question is about, or say the harm itself with `harm:`.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Question

from ..scope import Fault, Scope

CODE = "means-without-client"


def check(scope: Scope) -> Iterator[Fault]:
    for question in scope.course.questions.values():
        if not isinstance(question, Question) or question.case is not None:
            continue
        for number, option in enumerate(question.options):
            if option.means:
                yield Fault(
                    question.origin.at("options", number, "means"),
                    f"question:{question.id}",
                    f"An option of {question.id} says what it means, and the question has no client.",
                    "Add `case:` with the client it is about, or `harm:` in place of `means:`.",
                )
