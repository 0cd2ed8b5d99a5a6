"""Why each table came out as it did: every condition beside what was found. No words are made here."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from builder.course import Condition, Course, Rule, Table

from .evaluate import Decision, decide, holds
from .found import Found
from .grid import Value


@dataclass(frozen=True, slots=True)
class Check:
    """One condition of a rule beside what was found."""

    input: str
    """Name of a measure or of an earlier table."""
    condition: Condition
    found: Value | None
    """The recorded value, or the earlier table's outcome; None where there is none."""
    holds: bool


@dataclass(frozen=True, slots=True)
class OtherRule:
    """A rule that did not count."""

    rule: Rule
    failed: tuple[Check, ...]
    """The conditions that do not hold; empty where the rule matches too."""


@dataclass(frozen=True)
class Explanation:
    """One decision with its reasons."""

    decision: Decision
    checks: tuple[Check, ...] = ()
    """The conditions of the rule that counts, in the order of the table's inputs."""
    because: str | None = None
    source: str | None = None
    """The rule's source, else the table's."""
    table: Table | None = field(default=None, repr=False, compare=False)
    """None where it is not reached."""
    found: Mapping[str, Value] = field(default_factory=dict, repr=False, compare=False)
    """Everything found of the client."""

    @cached_property
    def others(self) -> tuple[OtherRule, ...]:
        """All other rules, in the order written; worked out when asked for. Empty where the table is not
        reached."""
        if self.table is None:
            return ()
        return tuple(
            OtherRule(rule, tuple(one for one in checks(self.table, rule, self.found) if not one.holds))
            for rule in self.table.rules
            if rule is not self.decision.rule
        )


def explain(course: Course, found: Found, tables: Sequence[str] | None = None) -> tuple[Explanation, ...]:
    """Every decision for one client with its reasons, in pathway order; `tables` as for `decide`."""
    decisions = decide(course, found, tables)
    known = dict(found.values)
    for name, decision in decisions.items():
        if decision.outcome is not None:
            known.setdefault(name, decision.outcome)
    return tuple(_explain(course.tables[name], decision, known) for name, decision in decisions.items())


def checks(table: Table, rule: Rule, found: Mapping[str, Value]) -> tuple[Check, ...]:
    """Every condition of a rule beside what was found, in the order of the table's inputs."""
    inputs = [name for name in table.inputs if name in rule.when]
    inputs += [name for name in rule.when if name not in inputs]
    asked = ((name, rule.when[name], found.get(name)) for name in inputs)
    return tuple(Check(name, one, has, has is not None and holds(one, has)) for name, one, has in asked)


def _explain(table: Table, decision: Decision, found: Mapping[str, Value]) -> Explanation:
    rule = decision.rule
    if decision.state == "not_reached":
        return Explanation(decision, source=table.source)
    if rule is None:
        return Explanation(decision, (), None, table.source, table, found)
    why = checks(table, rule, found)
    return Explanation(decision, why, rule.because, rule.source or table.source, table, found)
