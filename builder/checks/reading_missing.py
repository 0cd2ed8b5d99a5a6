"""A client lacks a reading that a table or a caution needs.

What: `readings` leaves out a measure that a table on this client's way reads, or that a caution reads. Only
what later tables need may be left out once an outcome with `ends: true` has sent the client on.

Why: without it the client has no outcome there, and nobody can say whether the caution is met.

Example:

    case: tern-03
    readings: {stance: hip}         # the first table also reads heel_pain

Cure: add the reading. If the client should be sent on before it is taken, check the earlier readings.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Case, Course
from builder.decide.grid import recorded

from .scope import Fault, Scope

CODE = "reading-missing"


def check(scope: Scope) -> Iterator[Fault]:
    for case in scope.course.cases.values():
        needed = needed_readings(scope, case)
        for name in scope.course.measures:
            if name in needed and name not in case.readings:
                yield Fault(
                    case.origin.at("readings"),
                    f"case:{case.name}",
                    f"{case.name} has no reading of `{name}`, which {needed[name]} needs.",
                    f"Add `{name}` to the readings.",
                )


def needed_readings(scope: Scope, case: Case) -> dict[str, str]:
    """Every measure that must be read of this client, and what needs it."""
    needed = {
        name: f"the caution {caution.name}"
        for _, caution in sorted(scope.course.cautions.items())
        for when in caution.when
        for name in when
    }
    for table in reversed(_way(scope, case)):
        needed.update((name, f"the table {table}") for name in scope.course.tables[table].inputs)
    return needed


def waits(scope: Scope, case: Case, table: str) -> bool:
    """Whether a client has no outcome at a table for a reason that another problem tells: no or several rules
    match somewhere before, a reading is missing or impossible, a name is not known, or tables form a circle.
    """
    needed = needed_readings(scope, case)
    for name in _before(scope.course, table):
        if name in scope.course.measures:
            if name in needed and recorded(scope.course.measures[name], case.readings.get(name)) is None:
                return True
        elif name not in scope.order or scope.decisions[case.name][name].state in ("gap", "overlap"):
            return True
    return False


def _way(scope: Scope, case: Case) -> tuple[str, ...]:
    """The tables up to the first whose outcome ends the client's way, itself included; without those of which
    nobody can say whether they are reached, since a table before them is not known."""
    decisions = scope.decisions[case.name]
    way = []
    for table in scope.order:
        if all(name in scope.course.measures or name in scope.order for name in _before(scope.course, table)):
            way.append(table)
        if _ends(scope.course, table, decisions[table].outcome):
            break
    return tuple(way)


def _before(course: Course, table: str) -> list[str]:
    """A table and all that it rests on, by any number of tables."""
    names = [table]
    for name in names:
        if name in course.tables and name not in course.measures:
            names += [feed for feed in course.tables[name].inputs if feed not in names]
    return names


def _ends(course: Course, table: str, outcome: str | None) -> bool:
    known = course.tables[table].outcomes
    return outcome is not None and outcome in known and known[outcome].ends
