"""Tables need each other in a circle.

What: a table reads the outcome of another, which reads the first one's, straight or by way of more tables.

Why: none of them could ever be decided first.

Example:

    table: ankle_class          table: plan
    inputs: [plan]              inputs: [ankle_class]

Cure: take one of them out of the other's `inputs`, or join the two tables.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.decide.pathway import cycles

from ..scope import Fault, Scope

CODE = "cycle"


def check(scope: Scope) -> Iterator[Fault]:
    for names in cycles(scope.course):
        table = scope.course.tables[names[0]]
        needed = names[1] if len(names) > 1 else names[0]
        way = ", which needs ".join((*names[1:], names[0]))
        yield Fault(
            table.origin.at("inputs", table.inputs.index(needed)),
            f"table:{table.name}",
            f"The table {table.name} needs {way}: a circle.",
            "Take one of these tables out of the inputs of another.",
        )
