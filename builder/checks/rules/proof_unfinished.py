"""A proof was given up because the table is too large.

What: the work that one proof may take was not enough for this table, caution or exercise.

Why: the builder never says that something is proved when it is not, and never runs without end.

Example: a table of many rules that reads many other tables, each of which reads many measures.

Cure: split the table in two, let it read fewer inputs, or join conditions that always go together.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Place
from builder.decide.proofs import Finding

from ..scope import Fault, Scope

CODE = "proof-unfinished"


def check(scope: Scope) -> Iterator[Fault]:
    for finding in scope.findings(CODE):
        place, subject = _where(scope, finding)
        yield Fault(
            place,
            subject,
            f"The {subject.replace(':', ' ')} is too large to be proved: the work allowed ran out.",
            "Split it, or let it read fewer inputs.",
        )


def _where(scope: Scope, finding: Finding) -> tuple[Place, str]:
    course = scope.course
    if finding.exercise is not None:
        return course.exercises[finding.exercise].origin.at("steps"), f"exercise:{finding.exercise}"
    if finding.caution is not None:
        return course.cautions[finding.caution].origin.at("demands"), f"caution:{finding.caution}"
    table = finding.table or ""
    return course.tables[table].origin.at("rules"), f"table:{table}"
