"""A rule, fact or caution names no source.

What: a table with rules that have no source of their own, a caution, a drill, or the measurement error of a
number says nothing about where it comes from.

Why: learners and clinicians must be able to look it up, and you must be able to tell what is known from what
is habit.

Example:

    table: ankle_class
    question: How would you class this ankle?
    # no source here, and none at its rules

Cure: name an entry of sources.yml. A habit of the trade without a published source cites `common-practice`, a
value from memory cites `from-memory`; pages say so in words. The error of a measure is named by `sem_source`.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import NumberScale

from ..scope import Fault, Scope

CODE = "source-missing"

_HINT = "Add `{}`, for example `common-practice` where nothing is published."


def check(scope: Scope) -> Iterator[Fault]:
    course = scope.course
    for measure in course.measures.values():
        scale = measure.scale
        if isinstance(scale, NumberScale) and scale.sem > 0 and scale.sem_source is None:
            message = f"The measurement error of `{measure.name}` names no source."
            yield Fault(
                measure.origin.at("sem"), f"measure:{measure.name}", message, _HINT.format("sem_source")
            )
    for table in course.tables.values():
        if table.source is None and any(rule.source is None for rule in table.rules):
            message = f"The table {table.name} names no source for all its rules."
            yield Fault(table.origin.at("source"), f"table:{table.name}", message, _HINT.format("source"))
    for drill in course.drills.values():
        if drill.source is None:
            message = f"The drill {drill.name} names no source."
            yield Fault(drill.origin.at("source"), f"drill:{drill.name}", message, _HINT.format("source"))
    for caution in course.cautions.values():
        if caution.source is None:
            message = f"The caution {caution.name} names no source."
            yield Fault(
                caution.origin.at("source"), f"caution:{caution.name}", message, _HINT.format("source")
            )
