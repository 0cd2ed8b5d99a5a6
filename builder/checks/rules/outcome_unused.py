"""No rule leads to an outcome.

What: a table lists an outcome that none of its rules has under `then`.

Why: learners see it among the answers, and it can never be right.

Example:

    outcomes: {stiff: {label: Stiff}, free: {label: Free}, odd: {label: Odd}}    # no rule says odd

Cure: add a rule that leads there, or take the outcome out.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "outcome-unused"


def check(scope: Scope) -> Iterator[Fault]:
    for table in scope.course.tables.values():
        reached = {rule.then for rule in table.rules}
        if not reached <= set(table.outcomes):
            continue  # a misspelt outcome is told as such
        for name, outcome in table.outcomes.items():
            if name not in reached:
                message = f"No rule of {table.name} leads to `{name}`."
                hint = "Add a rule for it, or take it out."
                yield Fault(outcome.origin.at(), f"table:{table.name}", message, hint)
