"""What the clients of a course leave untouched: rules, outcomes, cautions and lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from builder.course import NumberScale

from .doubt import exceeds_error, standard_error, variance
from .evaluate import decide, met
from .found import Found
from .proofs import Finding
from .space import Space


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
    """Whether that is within 1.96 standard errors; where there is no error, on the step beside the line."""


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


def coverage_of(space: Space, clients: Mapping[str, Found], proofs: Iterable[Finding]) -> Coverage:
    """What the clients of a course reach and what they do not: by name what was found of each, and what was
    proved of the rules."""
    course = space.course
    decided: set[tuple[str, str]] = set()
    came_to: set[tuple[str, str]] = set()
    warned: set[str] = set()
    for found in clients.values():
        warned |= {caution.name for caution in met(course, found)}
        for decision in decide(course, found).values():
            if decision.rule is not None:
                decided.add((decision.table, decision.rule.id))
                came_to.add((decision.table, decision.rule.then))
    dead = {(finding.table, *finding.rules) for finding in proofs if finding.code == "rule-unreachable"}
    return Coverage(
        len(clients),
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
        tuple(_lines(space, clients)),
    )


def _lines(space: Space, clients: Mapping[str, Found]) -> Iterator[LineCover]:
    for name, measure in space.course.measures.items():
        scale = measure.scale
        if name not in space.axes or not isinstance(scale, NumberScale):
            continue
        read = list(_read(clients, name))
        for cell in range(1, len(space.axes[name].cells)):
            at = space.axes[name].line(cell)
            drawn_by = _drawn_by(space, name, cell)
            distances = [(abs(value - at), client, trials) for client, value, trials in read]
            if not distances:
                yield LineCover(name, at, drawn_by, None, None, None, False)
                continue
            distance, client, trials = min(distances)
            errors = float(distance) / standard_error(scale, trials) if scale.sem else None
            reached = (
                not exceeds_error(distance, variance(scale, trials))
                if scale.sem
                else distance <= scale.step / 2
            )
            yield LineCover(name, at, drawn_by, client, distance, errors, reached)


def _read(clients: Mapping[str, Found], name: str) -> Iterator[tuple[str, Fraction, int]]:
    """Every client with a reading of a number: its recorded value and its trials."""
    for client, found in clients.items():
        one = found.recorded.get(name)
        if one is not None and isinstance(one.value, Fraction):
            yield client, one.value, one.trials


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
