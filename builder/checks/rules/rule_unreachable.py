"""No client is decided by a rule.

What: nobody who reaches the table fits this rule, or, under `policy: first`, rules above it take everyone who
does.

Why: it looks as if it mattered, and it never will. Often a bound is wrong, or a rule stands too low.

Example:

    policy: first
    rules:
      - {id: everyone, when: {}, then: free}
      - {id: low, when: {ankle_dorsiflexion: {below: 35}}, then: stiff}      # never its turn

Cure: correct its conditions, move it up, or take it out.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "rule-unreachable"


def check(scope: Scope) -> Iterator[Fault]:
    for finding in scope.findings(CODE):
        table = scope.course.tables[finding.table or ""]
        (rule,) = (table.rules[number] for number in finding.rules)
        cure = "Correct its conditions, move it up, or take it out."
        yield Fault(
            rule.origin.at(),
            f"rule:{table.name}/{rule.id}",
            f"No client is decided by the rule `{rule.id}` of {table.name}.",
            cure if table.policy == "first" else "Correct its conditions, or take it out.",
        )
