"""A client lacks a reading that a table or a caution needs.

What: `readings` leaves out a measure that a table on this client's way reads, or that a caution reads. Only
what later tables need may be left out once an outcome with `ends: true` has sent the client on. Where a table
or a caution reads `age`, every client has one, under `client`.

Why: without it the client has no outcome there, and nobody can say whether the caution is met.

Example:

    case: tern-03
    readings: {stance: hip}         # the first table also reads heel_pain

Cure: add the reading. If the client should be sent on before it is taken, check the earlier readings. Nothing
is asked for while an earlier table is broken, since it might send the client on.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Measure

from ..scope import Fault, Scope, meant

CODE = "reading-missing"


def check(scope: Scope) -> Iterator[Fault]:
    for case in scope.course.cases.values():
        needed = scope.ways.needed_readings(case)
        there = {*case.readings, *meant(case.readings, scope.course.measures)}
        for name, measure in scope.course.measures.items():
            if name in needed and name not in there:
                place, lacks, where = _lack(measure)
                yield Fault(
                    case.origin.at(place),
                    f"case:{case.name}",
                    f"{case.name} has no {lacks}, which {needed[name]} needs.",
                    f"Add `{name}` {where}.",
                )


def _lack(measure: Measure) -> tuple[str, str, str]:
    """Where something lacks, what, and where to add it."""
    if measure.of_client:
        return "client", f"`{measure.name}`", "under `client`"
    return "readings", f"reading of `{measure.name}`", "to the readings"
