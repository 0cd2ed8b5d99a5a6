"""Two rules of a unique table match the same client.

What: under `policy: unique` exactly one rule may match, and here two match the same someone.

Why: the table says two things about one client, so there is no key.

Example:

    policy: unique
    rules:
      - {id: low, when: {ankle_dorsiflexion: {at_most: 35}}, then: stiff}
      - {id: enough, when: {ankle_dorsiflexion: {at_least: 35}}, then: free}      # both take 35

Cure: change one of the two so that they exclude each other. If the order is meant to decide, write
`policy: first`.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "table-overlap"


def check(scope: Scope) -> Iterator[Fault]:
    for finding in scope.findings(CODE):
        table = scope.course.tables[finding.table or ""]
        upper, later = (table.rules[number] for number in finding.rules)
        yield Fault(
            later.origin.at(),
            f"table:{table.name}",
            f"The rules `{upper.id}` and `{later.id}` of {table.name} match the same client.",
            "Change one so that they exclude each other, or write `policy: first` if the upper should win.",
            scope.example(finding),
            scope.region(finding),
        )
