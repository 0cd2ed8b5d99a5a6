"""Which answers can be shown as pictures: outcomes that lead to drills in different positions."""

from __future__ import annotations

from collections.abc import Mapping

from builder.course import Course
from builder.questions.item import Item


def positions_of(course: Course, table: str | None) -> Mapping[str, str]:
    """Outcome of a table to the position in which the first drill for it starts; empty unless these lead to
    different ones, since nothing could be told by a picture that all share."""
    found: dict[str, str] = {}
    for drill in course.drills.values():
        if drill.position in course.positions:
            for outcome in drill.leads_here.get(table or "", ()):
                found.setdefault(outcome, drill.position or "")
    return found if len(set(found.values())) > 1 else {}


def pictures_for(course: Course, item: Item) -> Mapping[str, str]:
    """Option of a question that asks for an outcome to the position that shows it."""
    shown = positions_of(course, item.table)
    return {option.id: shown[option.says] for option in item.options if option.says in shown}
