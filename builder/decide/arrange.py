"""In what order diagrams ask the measures. The order changes nothing but the size of the diagrams."""

from __future__ import annotations

from collections.abc import Mapping

from builder.course import Caution, Course, Table

from .cells import is_sound


def arranged(course: Course, tables: Mapping[str, Table], cautions: Mapping[str, Caution]) -> tuple[str, ...]:
    """Every measure that has a domain, table after table as they feed each other."""
    names = [name for table in tables.values() for name in table.inputs]
    names += [name for caution in cautions.values() for when in caution.when for name in when]
    names += sorted(course.measures)
    return tuple(
        name for name in dict.fromkeys(names) if name in course.measures and is_sound(course.measures[name])
    )
