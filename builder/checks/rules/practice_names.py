"""There are not enough names for the clients whom the builder makes up.

What: `practice` in course.yml asks for more clients than it lists names, once those are left out that written
clients bear; or a family asks about made-up clients (`cases: practice`), and course.yml has no `practice`.

Why: two clients of one name would be taken for one, so those without a name are not made.

Example:

    practice:
      each: 5                          # with 6 rules, 30 clients
      names: [Alder, Birch, Cedar]

Cure: list more names, or ask for fewer clients.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Family

from ..scope import Fault, Scope

CODE = "practice-names"


def check(scope: Scope) -> Iterator[Fault]:
    practice = scope.course.about.practice
    if scope.rules_unread:
        return
    if practice is None:
        yield from _unasked(scope)
        return
    made = scope.answers.practised
    if len(made.cases) < made.asked:
        message = f"Practice asks for {made.asked} clients, and there are names for {len(made.cases)}."
        hint = (
            f"List {made.asked - len(made.cases)} more names that no written client bears, or ask for fewer."
        )
        yield Fault(practice.origin.at("names"), f"course:{scope.course.about.name}", message, hint)


def _unasked(scope: Scope) -> Iterator[Fault]:
    for question in scope.course.questions.values():
        if isinstance(question, Family) and question.cases == "practice":
            message = f"{question.id} asks about made-up clients, and course.yml asks for none."
            hint = "Add `practice` to course.yml, with `each` and `names`; or name clients of the course."
            yield Fault(question.origin.at("cases"), f"question:{question.id}", message, hint)
