"""The rules decide something else than the author meant.

What: `expect` says which outcome the author had in mind for this client, and the rules come to another.

Why: `expect` is never used as the key. One of the two is wrong: the rules, the readings, or the expectation.

Example:

    readings: {ankle_dorsiflexion: 36}
    expect: {ankle_class: stiff}          # the rule says stiff below 35

Cure: `casetrue explain CASE` shows every condition beside its reading. Change whichever is wrong.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.decide.evaluate import Decision

from ..scope import Fault, Scope

CODE = "case-disagrees"


def check(scope: Scope) -> Iterator[Fault]:
    course = scope.course
    for case in course.cases.values():
        for table, expected in case.expect.items():
            if table not in course.tables or expected not in course.tables[table].outcomes:
                continue
            decision = scope.answers.clients[case.name].decisions[table]
            if decision.outcome != expected and not scope.ways.waits(case, table):
                came_to = _came_to(decision)
                yield Fault(
                    case.origin.at("expect", table),
                    f"case:{case.name}",
                    f"The author expects `{expected}` of {table} for {case.name}, but {came_to}.",
                    f"`casetrue explain {case.name}` shows why.",
                )


def _came_to(decision: Decision) -> str:
    match decision.state:
        case "decided":
            rule = decision.rule.id if decision.rule else ""
            return f"the rule {rule} decides `{decision.outcome}`"
        case "gap":
            return "no rule matches"
        case "overlap":
            return f"the rules {' and '.join(decision.matched)} match at once"
        case "not_reached":
            return f"the table is not reached without {' and '.join(decision.missing) or 'its inputs'}"
