"""Someone reaches a table and no rule matches.

What: at least one combination of readings that a client could have leads to this table, and none of its rules
is for them.

Why: such a client would get no outcome, and the learner no answer.

Example:

    - {id: low, when: {ankle_dorsiflexion: {below: 35}}, then: stiff}
    - {id: enough, when: {ankle_dorsiflexion: {above: 35}}, then: free}      # and who reads 35 exactly?

Cure: widen a rule, or add one for the clients that are shown. A last rule with an empty `when` takes everyone
who is left, under the policy `first`.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "table-gap"


def check(scope: Scope) -> Iterator[Fault]:
    for finding in scope.findings(CODE):
        table = scope.course.tables[finding.table or ""]
        yield Fault(
            table.origin.at("rules"),
            f"table:{table.name}",
            f"No rule of {table.name} matches some of the clients who reach it.",
            "Widen a rule, or add one for them.",
            scope.example(finding),
            scope.region(finding),
        )
