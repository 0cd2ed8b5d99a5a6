"""There are not enough names for the clients whom the builder makes up.

What: `practice` in course.yml asks for more clients than it lists names, once those are left out that written
clients bear.

Why: two clients of one name would be taken for one, so those without a name are not made.

Example:

    practice:
      each: 5                          # with 6 rules, 30 clients
      names: [Alder, Birch, Cedar]

Cure: list more names, or ask for fewer clients.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "practice-names"


def check(scope: Scope) -> Iterator[Fault]:
    practice = scope.course.about.practice
    if practice is None or scope.rules_unread:
        return
    made = scope.answers.practised
    if len(made.cases) < made.asked:
        message = f"Practice asks for {made.asked} clients, and there are names for {len(made.cases)}."
        hint = (
            f"List {made.asked - len(made.cases)} more names that no written client bears, or ask for fewer."
        )
        yield Fault(practice.origin.at("names"), f"course:{scope.course.about.name}", message, hint)
