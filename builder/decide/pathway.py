"""The graph of tables: which feed which, in what order they are decided, and where they run in circles."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from builder.course import Course


@dataclass(frozen=True, slots=True)
class Graph:
    """What follows from how tables feed each other, worked out once for a course."""

    order: tuple[str, ...]
    """As `order`."""
    behind: Mapping[str, frozenset[str]]
    """Every table to itself and all tables that feed it."""


def graph(course: Course) -> Graph:
    return Graph(order(course), {name: frozenset(tables_behind(course, name)) for name in course.tables})


def feeds(course: Course, table: str) -> tuple[str, ...]:
    """The tables among a table's inputs, in the order written. A measure of the same name goes first."""
    return tuple(
        dict.fromkeys(
            name
            for name in course.tables[table].inputs
            if name in course.tables and name not in course.measures
        )
    )


def behind(course: Course, table: str) -> tuple[str, ...]:
    """A table and all that it rests on, by any number of tables, the nearest first: tables, measures, and
    names of neither. A measure of the same name as a table goes first."""
    found = {table: None}
    waiting = [table]
    for name in waiting:
        for feed in course.tables[name].inputs if name in course.tables else ():
            if feed not in found:
                found[feed] = None
                if feed not in course.measures:
                    waiting.append(feed)
    return tuple(found)


def tables_behind(course: Course, table: str) -> tuple[str, ...]:
    """A table and all tables that feed it, the nearest first."""
    others = (name for name in behind(course, table)[1:] if name not in course.measures)
    return (table, *(name for name in others if name in course.tables))


def measures_behind(course: Course, table: str) -> tuple[str, ...]:
    """The measures that a table reads, by itself or through the tables that feed it, its own first."""
    return tuple(name for name in behind(course, table)[1:] if name in course.measures)


def read_at(course: Course, table: str, decided: Collection[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What a table asks about where some tables are decided: the measures that it reads, by itself or through
    tables that are not decided, and the decided tables that feed it."""
    measures: dict[str, None] = {}
    tables: dict[str, None] = {}

    def read(name: str) -> None:
        feeding = feeds(course, name)
        measures.update(dict.fromkeys(one for one in course.tables[name].inputs if one in course.measures))
        for feed in feeding:
            if feed in decided:
                tables[feed] = None
            else:
                read(feed)

    read(table)
    return tuple(measures), tuple(tables)


def cycles(course: Course) -> tuple[tuple[str, ...], ...]:
    """Groups of tables that need each other, each as one round that starts at its first name; sorted."""
    below = {name: _before(course, name) for name in course.tables}
    seen: set[str] = set()
    rounds: list[tuple[str, ...]] = []
    for name in sorted(course.tables):
        if name in below[name] and name not in seen:
            seen |= {other for other in below[name] if name in below[other]}
            rounds.append(_round(course, name))
    return tuple(rounds)


def order(course: Course) -> tuple[str, ...]:
    """Tables in the order in which they are decided; those in a cycle are left out.

    The course's `pathway` where it lists every table once, inputs first; else by depth of dependence, then
    name.
    """
    if is_complete(course) and not misplaced(course):
        return course.about.pathway
    pending = {name for name in course.tables if name not in _before(course, name)}
    ordered: list[str] = []
    while pending:
        ready = sorted(name for name in pending if pending.isdisjoint(feeds(course, name)))
        ordered += ready
        pending.difference_update(ready)
    return tuple(ordered)


def is_complete(course: Course) -> bool:
    """Whether the course's `pathway` lists every table exactly once."""
    listed = course.about.pathway
    return len(set(listed)) == len(listed) and set(listed) == set(course.tables)


def misplaced(course: Course) -> tuple[tuple[str, str], ...]:
    """Pairs (table, input) of the course's `pathway` where the input does not stand before the table."""
    place = {name: number for number, name in enumerate(course.about.pathway)}
    return tuple(
        (name, feed)
        for name in course.about.pathway
        if name in course.tables
        for feed in feeds(course, name)
        if feed in place and place[feed] >= place[name]
    )


def _before(course: Course, table: str) -> set[str]:
    """Every table that must be decided before this one; itself where it needs itself."""
    return {name for feed in feeds(course, table) for name in tables_behind(course, feed)}


def _round(course: Course, start: str) -> tuple[str, ...]:
    """The shortest way from a table through its inputs back to itself."""
    paths: list[tuple[str, ...]] = [(start,)]
    seen: set[str] = set()
    while True:
        longer: list[tuple[str, ...]] = []
        for path in paths:
            for feed in feeds(course, path[-1]):
                if feed == start:
                    return path
                if feed not in seen:
                    seen.add(feed)
                    longer.append((*path, feed))
        paths = longer
