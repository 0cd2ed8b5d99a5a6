"""What can be said of a client's way through the tables while parts of the course are broken.

What only follows from something broken is not told: whoever cured it would cure the wrong thing, and might
give readings to a client who must be sent on.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Case
from builder.decide.grid import recorded

from .scope import Scope


def needed_readings(scope: Scope, case: Case) -> dict[str, str]:
    """Every measure that must be read of this client, and what needs it."""
    return scope.once(("needed", case.name), lambda: _needed_readings(scope, case))


def _needed_readings(scope: Scope, case: Case) -> dict[str, str]:
    needed = {
        name: f"the caution {caution.name}"
        for _, caution in sorted(scope.course.cautions.items())
        for when in caution.when
        for name in when
    }
    for table in reversed(tuple(_way(scope, case))):
        needed.update((name, f"the table {table}") for name in scope.course.tables[table].inputs)
    return needed


def waits(scope: Scope, case: Case, table: str) -> bool:
    """Whether nobody can say what a client comes to at a table, for a reason that another problem tells: no
    or several rules match somewhere before, a reading is missing or impossible, a name is not known, or
    tables form a circle.
    """
    return scope.once(("waits", case.name, table), lambda: _waits(scope, case, table))


def _waits(scope: Scope, case: Case, table: str) -> bool:
    needed = needed_readings(scope, case)
    return any(
        _is_broken(scope, case, name)
        or (
            name in needed
            and name in scope.course.measures
            and recorded(scope.course.measures[name], case.readings.get(name)) is None
        )
        for name in scope.behind(table)
    )


def may_end(scope: Scope, case: Case, table: str) -> bool:
    """Whether a client is sent on at a table, for all that can be said."""
    return scope.once(("may end", case.name, table), lambda: _may_end(scope, case, table))


def _may_end(scope: Scope, case: Case, table: str) -> bool:
    if table not in scope.course.tables:
        return True  # it could not be read, or its name is wrong
    written = scope.course.tables[table]
    ending = {name for name, outcome in written.outcomes.items() if outcome.ends}
    if any(_is_broken(scope, case, name) for name in scope.behind(table)):
        return bool(ending) or any(rule.then not in written.outcomes for rule in written.rules)
    outcome = scope.decisions[case.name][table].outcome
    return outcome in ending if outcome is not None else bool(ending) and _is_refused(scope, case, table)


def _way(scope: Scope, case: Case) -> Iterator[str]:
    """The tables up to the first at which the client is sent on, or may be, itself included; without those of
    which nobody can say whether they are reached, since a table before them is not known."""
    for table in scope.way:
        if all(name in scope.course.measures or name in scope.order for name in scope.behind(table)):
            yield table
        if may_end(scope, case, table):
            return


def _is_broken(scope: Scope, case: Case, name: str) -> bool:
    """Whether a table is not well-formed, or has no outcome for a client by a fault of its own."""
    if name in scope.course.measures:
        return False
    return name not in scope.space.tables or scope.decisions[case.name][name].state in ("gap", "overlap")


def _is_refused(scope: Scope, case: Case, table: str) -> bool:
    """Whether a table has no outcome for a client since one of their readings is refused, by its name or its
    value. One that is simply not there is asked for together with all others."""
    measures = scope.course.measures
    return not case.readings.keys() <= measures.keys() or any(
        name in case.readings and recorded(measures[name], case.readings[name]) is None
        for name in scope.behind(table)
        if name in measures
    )
