"""Which tables and cautions are well-formed: all that they name is there and of the right kind."""

from __future__ import annotations

from collections.abc import Container

from builder.course import (
    AnyOf,
    Band,
    Caution,
    ChoiceScale,
    Condition,
    Course,
    Is,
    Measure,
    NumberScale,
    Table,
    YesNoScale,
)

from . import grid, pathway


def well_formed_tables(course: Course) -> dict[str, Table]:
    """By name, in pathway order. A table that needs itself, or one that is left out, is left out too."""
    found: dict[str, Table] = {}
    for name in pathway.order(course):
        if _is_well_formed(course, course.tables[name], found):
            found[name] = course.tables[name]
    return found


def well_formed_cautions(course: Course) -> dict[str, Caution]:
    """The well-formed cautions, by name."""
    return {
        name: caution
        for name, caution in sorted(course.cautions.items())
        if all(
            name in course.measures and has_domain(course.measures[name]) and fits(one, course.measures[name])
            for when in caution.when
            for name, one in when.items()
        )
    }


def has_domain(measure: Measure) -> bool:
    """Whether there is any value that a measure can have."""
    scale = measure.scale
    if isinstance(scale, NumberScale):
        return scale.step > 0 and scale.stop >= scale.start and scale.sem >= 0
    return grid.size(measure) > 0


def fits(condition: Condition, measure: Measure) -> bool:
    """Whether a condition is one that can be put on this measure."""
    match condition, measure.scale:
        case Band(), NumberScale():
            return True
        case AnyOf(names=names), ChoiceScale(values=values):
            return all(name in values for name in names)
        case Is(), YesNoScale():
            return True
    return False


def _is_well_formed(course: Course, table: Table, earlier: Container[str]) -> bool:
    return all(
        has_domain(course.measures[name]) if name in course.measures else name in earlier
        for name in table.inputs
    ) and all(
        rule.then in table.outcomes
        and all(name in table.inputs and _fits(course, name, one) for name, one in rule.when.items())
        for rule in table.rules
    )


def _fits(course: Course, name: str, condition: Condition) -> bool:
    if name in course.measures:
        return fits(condition, course.measures[name])
    outcomes = course.tables[name].outcomes
    return isinstance(condition, AnyOf) and all(one in outcomes for one in condition.names)
