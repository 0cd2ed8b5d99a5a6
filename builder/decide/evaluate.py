"""Decides every table for one client, after the hit policies of OMG DMN 1.5, section 8.2.10."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from builder.course import AnyOf, Band, Bound, Caution, Condition, Course, Is, Rule, Table, When

from .found import Found
from .grid import Value
from .pathway import order

State = Literal["decided", "gap", "overlap", "not_reached"]


@dataclass(frozen=True, slots=True)
class Decision:
    """What one table comes to for one client."""

    table: str
    state: State
    """`gap`: no rule matches. `overlap`: several rules of a `unique` table match. `not_reached`: an input is
    missing."""
    outcome: str | None = None
    rule: Rule | None = None
    """The rule that counts; None unless decided."""
    matched: tuple[str, ...] = ()
    """Ids of all rules that match, in the order written."""
    missing: tuple[str, ...] = ()
    """Inputs without a value: measures that have no usable reading, and tables that have no outcome."""


def decide(course: Course, found: Found, tables: Sequence[str] | None = None) -> dict[str, Decision]:
    """Every table's decision, in pathway order. Tables in a cycle come last and are not reached. `tables` is
    the pathway order where it is known already."""
    known = dict(found.values)
    decisions: dict[str, Decision] = {}
    for name in order(course) if tables is None else tables:
        decision = decide_table(course.tables[name], known)
        decisions[name] = decision
        if decision.outcome is not None and name not in course.measures:
            known[name] = decision.outcome
    for name in sorted(set(course.tables) - set(decisions)):
        decisions[name] = decide_table(course.tables[name], known)
    return decisions


def decide_table(table: Table, found: Mapping[str, Value]) -> Decision:
    """One table over what was found: recorded values of measures, and outcomes of earlier tables, by name."""
    missing = tuple(name for name in table.inputs if name not in found)
    if missing:
        return Decision(table.name, "not_reached", missing=missing)
    matching = [rule for rule in table.rules if matches(rule.when, found)]
    matched = tuple(rule.id for rule in matching)
    if not matching:
        return Decision(table.name, "gap")
    if table.policy == "unique" and len(matching) > 1:
        return Decision(table.name, "overlap", matched=matched)
    return Decision(table.name, "decided", matching[0].then, matching[0], matched)


def meets(caution: Caution, found: Found) -> bool:
    """Whether a client meets a caution: any one set of its conditions holds. What was not read does not."""
    return any(matches(when, found.values) for when in caution.when)


def met(course: Course, found: Found) -> tuple[Caution, ...]:
    """Every caution that a client meets, by name."""
    return tuple(caution for _, caution in sorted(course.cautions.items()) if meets(caution, found))


def matches(when: When, found: Mapping[str, Value]) -> bool:
    """Whether all conditions hold; one on something that was not found does not."""
    for name, condition in when.items():
        if name not in found or not holds(condition, found[name]):
            return False
    return True


def holds(condition: Condition, found: Value) -> bool:
    """Whether one condition holds. A condition of another kind than the finding never does."""
    match condition:
        case Band(bounds=bounds):
            return not isinstance(found, (str, bool)) and all(
                within(bound, found, cut) for bound, cut in bounds.items()
            )
        case AnyOf(names=names):
            return found in names
        case Is(answer=answer):
            return isinstance(found, bool) and found == answer


def within(bound: Bound, found: Fraction, cut: Fraction) -> bool:
    """Whether a bound at `cut` holds for a number."""
    match bound:
        case "at_least":
            return found >= cut
        case "above":
            return found > cut
        case "at_most":
            return found <= cut
        case "below":
            return found < cut
