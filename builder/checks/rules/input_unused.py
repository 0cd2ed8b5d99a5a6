"""No rule reads an input.

What: a table lists an input that none of its rules names under `when`.

Why: learners are made to look at something that decides nothing, and every client must have a reading of it.

Example:

    inputs: [ankle_dorsiflexion, stance]      # no rule asks about stance

Cure: take it out of `inputs`, or add the condition that was forgotten.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "input-unused"


def check(scope: Scope) -> Iterator[Fault]:
    for table in scope.course.tables.values():
        read = {name for rule in table.rules for name in rule.when}
        if not read <= set(table.inputs):
            continue  # a misspelt input is told as such
        for number, name in enumerate(table.inputs):
            known = name in scope.course.measures or name in scope.course.tables
            if known and name not in read:
                place = table.origin.at("inputs", number)
                message = f"No rule of {table.name} reads its input `{name}`."
                hint = "Take it out of `inputs`, or add the condition that was forgotten."
                yield Fault(place, f"table:{table.name}", message, hint)
