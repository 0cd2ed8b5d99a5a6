"""Someone meets a caution and ends in an outcome that it forbids.

What: a caution's `demands` lists the outcomes in which a table may end for anyone who meets it, and the rules
lead at least one such client to another.

Why: this is how a course would teach something unsafe.

Example:

    when: [{heel_pain: true}]
    demands: {plan: [refer_out]}          # and a rule of plan lets heel pain through

Cure: change the table's rules so that these clients end where the caution demands it. Change `demands` only
if the other outcome is truly safe for them.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "caution-breach"


def check(scope: Scope) -> Iterator[Fault]:
    for finding in scope.findings(CODE):
        caution = scope.course.cautions[finding.caution or ""]
        ends = " or ".join(f"`{outcome}`" for outcome in finding.outcomes)
        yield Fault(
            caution.origin.at("demands"),
            f"caution:{caution.name}",
            f"Someone who meets {caution.name} can end in {ends} of {finding.table}; it forbids that.",
            f"Change the rules of {finding.table} so that these clients end where the caution demands it.",
            scope.example(finding),
            scope.region(finding),
        )
