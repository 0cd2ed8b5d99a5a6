"""The pathway leaves out a table, or lists one before its inputs.

What: `pathway` in course.yml gives the order in which a learner meets the tables. It must list every table
once, and a table only after the tables that it reads.

Why: a learner would be asked to decide something before what it rests on, or never.

Example:

    pathway: [plan, ankle_class]       # plan reads ankle_class

Cure: put the missing table in, or move it. Without `pathway` the builder finds an order by itself.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.decide.pathway import misplaced

from ..scope import Fault, Scope

CODE = "pathway-incomplete"


def check(scope: Scope) -> Iterator[Fault]:
    course = scope.course
    listed, at = course.about.pathway, course.about.origin.at
    if not listed:
        return
    for name in course.tables:
        if name not in listed:
            message = f"The pathway leaves out the table `{name}`."
            hint = "List every table, or leave `pathway` out altogether."
            yield Fault(at("pathway"), f"table:{name}", message, hint)
    for table, needed in misplaced(course):
        if table != needed:
            message = f"The pathway lists `{table}` before `{needed}`, which it reads."
            place = at("pathway", listed.index(table))
            yield Fault(place, f"table:{table}", message, f"Move `{needed}` before it.")
