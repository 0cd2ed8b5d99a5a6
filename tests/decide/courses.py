"""Small courses built in code, for tests of the decision mathematics."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from builder.course import (
    About,
    Band,
    Bound,
    Caution,
    ChoiceScale,
    Condition,
    Course,
    Measure,
    NumberScale,
    Outcome,
    Reading,
    Rule,
    Table,
    YesNoScale,
)
from builder.decide.grid import Value
from builder.decide.tree import Way


def number(
    name: str, start: object, stop: object, step: object = 1, unit: str = "", sem: object = 0
) -> Measure:
    scale = NumberScale(unit, exact(start), exact(stop), exact(step), exact(sem))
    return Measure(name, name.capitalize(), scale)


def choice(name: str, *values: str) -> Measure:
    return Measure(name, name.capitalize(), ChoiceScale({value: value.capitalize() for value in values}))


def yes_no(name: str) -> Measure:
    return Measure(name, name.capitalize(), YesNoScale())


def band(**bounds: object) -> Band:
    kinds: dict[str, Bound] = {
        "at_least": "at_least",
        "above": "above",
        "at_most": "at_most",
        "below": "below",
    }
    return Band({kinds[name]: exact(cut) for name, cut in bounds.items()})


def table(
    name: str,
    policy: str,
    inputs: str,
    *rules: tuple[str, Mapping[str, Condition], str],
    outcomes: str = "",
) -> Table:
    """A table whose outcomes are those of its rules, or the ones named."""
    names = dict.fromkeys([*outcomes.split(), *(then for _, _, then in rules)])
    return Table(
        name,
        f"What about {name}?",
        "first" if policy == "first" else "unique",
        tuple(inputs.split()),
        {outcome: Outcome(outcome, outcome.capitalize()) for outcome in names},
        tuple(Rule(id, when, then) for id, when, then in rules),
    )


def course(*things: Measure | Table | Caution, pathway: tuple[str, ...] = ()) -> Course:
    return Course(
        About("test", "Test", pathway=pathway),
        measures={thing.name: thing for thing in things if isinstance(thing, Measure)},
        tables={thing.name: thing for thing in things if isinstance(thing, Table)},
        cautions={thing.name: thing for thing in things if isinstance(thing, Caution)},
    )


def read(**readings: object) -> dict[str, Reading]:
    """Readings: a bool or a word is a finding, anything else a number, a list several trials."""
    return {name: _reading(value) for name, value in readings.items()}


def _reading(value: object) -> Reading:
    if isinstance(value, bool):
        return Reading(finding=value)
    if isinstance(value, list):
        return Reading(tuple(exact(trial) for trial in value))
    try:
        return Reading((exact(value),))
    except ValueError:
        return Reading(finding=str(value))


def takes(way: Way, value: Value | None) -> bool:
    """Whether a way of a tree is that of someone of whom this was found."""
    first, last = way.values[0], way.values[-1]
    if isinstance(first, Fraction) and isinstance(last, Fraction) and isinstance(value, Fraction):
        return first <= value <= last
    return value in way.values


def exact(value: object) -> Fraction:
    """A number as it is written: 0.1 is a tenth."""
    return value if isinstance(value, Fraction) else Fraction(str(value))
