"""What the clients of a course leave untouched: rules, outcomes, cautions and lines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from builder.course import NumberScale

from . import grid
from .doubt import standard_error
from .evaluate import decide, met
from .proofs import prove
from .space import Space

CLOSE = 1.96
"""A client reaches a line within so many standard errors; where there is no error, on the step beside it."""


@dataclass(frozen=True, slots=True)
class RuleLeft:
    table: str
    rule: str
    possible: bool
    """Whether any client who can exist would be decided by it."""


@dataclass(frozen=True, slots=True)
class LineCover:
    """A line that some rule or caution draws between two steps of a number, and the client nearest to it."""

    measure: str
    at: Fraction
    """Midway between two steps, in the measure's unit."""
    drawn_by: tuple[str, ...]
    """Tables in pathway order, then cautions."""
    nearest: str | None
    """The client whose recorded value lies nearest, the first by name; None where nobody has a reading."""
    distance: Fraction | None
    """How far that is, in the measure's unit."""
    errors: float | None
    """The same in standard errors of that client's recorded value; None where there is no error."""
    reached: bool


@dataclass(frozen=True, slots=True)
class Coverage:
    clients: int
    rules: tuple[RuleLeft, ...]
    """Rules that decide no client of the course."""
    outcomes: tuple[tuple[str, str], ...]
    """Table and outcome that no client comes to."""
    cautions: tuple[str, ...]
    """Cautions that no client meets."""
    lines: tuple[LineCover, ...]
    """Every line, by measure in the order of the course, then by place; reached or not."""


def coverage_of(space: Space) -> Coverage:
    """What the clients of a course reach and what they do not."""
    course = space.course
    decided: set[tuple[str, str]] = set()
    came_to: set[tuple[str, str]] = set()
    warned: set[str] = set()
    for case in course.cases.values():
        warned |= {caution.name for caution in met(course, case.readings)}
        for decision in decide(course, case.readings).values():
            if decision.rule is not None:
                decided.add((decision.table, decision.rule.id))
                came_to.add((decision.table, decision.rule.then))
    dead = {(finding.table, *finding.rules) for finding in prove(space) if finding.code == "rule-unreachable"}
    return Coverage(
        len(course.cases),
        tuple(
            RuleLeft(name, rule.id, (name, number) not in dead)
            for name, table in space.tables.items()
            for number, rule in enumerate(table.rules)
            if (name, rule.id) not in decided
        ),
        tuple(
            (name, outcome)
            for name, table in space.tables.items()
            for outcome in table.outcomes
            if (name, outcome) not in came_to
        ),
        tuple(name for name in sorted(course.cautions) if name not in warned),
        tuple(_lines(space)),
    )


def _lines(space: Space) -> Iterator[LineCover]:
    for name, measure in space.course.measures.items():
        scale = measure.scale
        if name not in space.axes or not isinstance(scale, NumberScale):
            continue
        clients = list(_recorded(space, name))
        for cell in range(1, len(space.axes[name].cells)):
            at = space.axes[name].line(cell)
            near = min(clients, key=lambda client: (abs(client[1] - at), client[0]), default=None)
            if near is None:
                yield LineCover(name, at, _drawn_by(space, name, cell), None, None, None, False)
                continue
            client, value, error = near
            distance = abs(value - at)
            errors = float(distance) / error if error else None
            reached = distance <= scale.step / 2 if errors is None else errors <= CLOSE
            yield LineCover(name, at, _drawn_by(space, name, cell), client, distance, errors, reached)


def _recorded(space: Space, name: str) -> Iterator[tuple[str, Fraction, float]]:
    """Every client with a usable reading of a number: its recorded value and its standard error."""
    measure = space.course.measures[name]
    assert isinstance(measure.scale, NumberScale)
    for case in space.course.cases.values():
        value = grid.recorded(measure, case.readings.get(name))
        if isinstance(value, Fraction):
            error = standard_error(measure.scale, len(case.readings[name].trials))
            yield case.name, value, error


def _drawn_by(space: Space, name: str, cell: int) -> tuple[str, ...]:
    """The tables and cautions with a condition that holds on one side of a line and not on the other."""
    axis = space.axes[name]

    def tells(conditions: Iterator[int]) -> bool:
        return any((admitted >> cell ^ admitted >> (cell - 1)) & 1 for admitted in conditions)

    tables = (
        table
        for table, one in space.tables.items()
        if tells(axis.admits(rule.when[name]) for rule in one.rules if name in rule.when)
    )
    cautions = (
        caution
        for caution, one in space.cautions.items()
        if tells(axis.admits(when[name]) for when in one.when if name in when)
    )
    return (*tables, *cautions)
