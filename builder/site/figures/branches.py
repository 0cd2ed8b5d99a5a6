"""A decision table as a tree of questions, one input at a time, as small as its inputs' order allows."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from builder.course import Band, ChoiceScale, Course, NumberScale, Rule, Table
from builder.decide import grid
from builder.decide.budget import Budget
from builder.decide.evaluate import holds
from builder.decide.grid import Value
from builder.decide.space import Space
from builder.words import Words
from builder.words.numbers import quantity, span
from builder.words.sentences import joined, label, outcome_label

MOST_LEAVES = 40
"""A table that needs more is not drawn: nobody could read it."""


@dataclass(frozen=True, slots=True)
class Leaf:
    outcome: str | None
    """None where no rule matches."""


@dataclass(frozen=True, slots=True)
class Way:
    label: str
    values: tuple[Value, ...]
    """What leads here. For numbers the first and the last value of a run."""
    to: Fork | Leaf

    def takes(self, value: Value | None) -> bool:
        if value is None:
            return False
        first, last = self.values[0], self.values[-1]
        if isinstance(first, str | bool) or isinstance(last, str | bool) or isinstance(value, str | bool):
            return value in self.values
        return first <= value <= last


@dataclass(frozen=True, slots=True)
class Fork:
    input: str
    label: str
    ways: tuple[Way, ...]


Tree = Fork | Leaf


@dataclass(frozen=True, slots=True)
class _Line:
    first: int
    """Index of the first step above the line."""
    cut: Fraction
    on_it: bool
    """Whether the threshold itself counts to the upper side."""


def branches(words: Words, course: Course, table: Table, space: Space | None = None) -> Tree | None:
    """The tree of a table; None where it would have more than `MOST_LEAVES` leaves.

    With `space`, branches that no client can reach are left out. Raises Unfinished where finding these takes
    more than an eighth of the work that the space allows for a proof.
    """
    grower = _Grower(words, course, table)
    tree = grower.grow(tuple(table.rules), tuple(table.inputs))
    if space is not None:
        tree = grower.pruned(tree, {}, space, Budget(space.steps // 8))
    return tree if leaves(tree) <= MOST_LEAVES else None


def leaves(tree: Tree) -> int:
    return sum(leaves(way.to) for way in tree.ways) if isinstance(tree, Fork) else 1


def depth(tree: Tree) -> int:
    """How many questions the longest way asks."""
    return 1 + max(depth(way.to) for way in tree.ways) if isinstance(tree, Fork) else 0


class _Grower:
    def __init__(self, words: Words, course: Course, table: Table) -> None:
        self._words = words
        self._course = course
        self._table = table

    def grow(self, rules: tuple[Rule, ...], inputs: tuple[str, ...]) -> Tree:
        open_rules = [any(name in rule.when for name in inputs) for rule in rules]
        if not rules:
            return Leaf(None)
        if not any(open_rules) or (self._table.policy == "first" and not open_rules[0]):
            return Leaf(rules[0].then)
        name, rest = inputs[0], inputs[1:]
        runs: list[tuple[list[Value], Tree]] = []
        known: dict[tuple[str, ...], Tree] = {}
        for value, last in self._cells(name, rules):
            left = tuple(rule for rule in rules if name not in rule.when or holds(rule.when[name], value))
            key = tuple(rule.id for rule in left)
            if key not in known:
                known[key] = self.grow(left, rest)
            self._add(runs, value, last, known[key])
        return self._fork(name, runs)

    def pruned(self, tree: Tree, found: Mapping[str, Sequence[Value]], space: Space, budget: Budget) -> Tree:
        """The tree without what nobody reaches who was `found` so far. Numbers that nobody has go to a
        neighbour, so that the ways still part only where a rule draws a line."""
        if isinstance(tree, Leaf):
            return tree

        def arises(values: tuple[Value, ...]) -> bool:
            box = space.holding({**found, tree.input: values})
            return space.someone(self._table.name, box, budget) is not None

        runs: list[tuple[list[Value], Tree]] = []
        passed: Value | None = None
        for way in tree.ways:
            numeric = not isinstance(way.values[0], str | bool)
            parts = [way.values] if numeric else [(value,) for value in way.values]
            values = tuple(value for part in parts if arises(part) for value in part)
            if values:
                to = self.pruned(way.to, {**found, tree.input: values}, space, budget)
                if numeric:
                    self._add(runs, values[0] if passed is None else passed, values[-1], to)
                else:
                    for value in values:
                        self._add(runs, value, value, to)
                passed = None
            elif numeric and runs:
                runs[-1][0][-1] = way.values[-1]
            elif numeric and passed is None:
                passed = way.values[0]
        return self._fork(tree.input, runs) if runs else tree

    def _fork(self, name: str, runs: Sequence[tuple[list[Value], Tree]]) -> Tree:
        if len(runs) == 1:
            return runs[0][1]
        ways = tuple(Way(self._said(name, values), tuple(values), to) for values, to in runs)
        return Fork(name, label(self._course, name), ways)

    def _add(self, runs: list[tuple[list[Value], Tree]], value: Value, last: Value, to: Tree) -> None:
        numeric = not isinstance(value, str | bool)
        for values, tree in runs[-1:] if numeric else runs:
            if tree == to:
                if numeric:
                    values[-1] = last
                else:
                    values.append(value)
                return
        runs.append(([value, last] if numeric else [value], to))

    def _cells(self, name: str, rules: Sequence[Rule]) -> list[tuple[Value, Value]]:
        """First and last value of every run that no rule tells apart."""
        measure = self._course.measures.get(name)
        if measure is None:
            table = self._course.tables.get(name)
            return [(outcome, outcome) for outcome in (table.outcomes if table else ())]
        every = range(grid.size(measure))
        if not isinstance(measure.scale, NumberScale):
            return [(grid.value(measure, one), grid.value(measure, one)) for one in every]
        firsts = sorted(
            {0, *(line.first for line in self._lines(name, rules) if 0 < line.first < len(every))}
        )
        return [
            (grid.value(measure, first), grid.value(measure, after - 1))
            for first, after in zip(firsts, [*firsts[1:], len(every)], strict=True)
        ]

    def _lines(self, name: str, rules: Sequence[Rule]) -> Iterator[_Line]:
        """Every line that rules draw on a number."""
        measure = self._course.measures[name]
        assert isinstance(measure.scale, NumberScale)
        for rule in rules:
            condition = rule.when.get(name)
            for bound, cut in condition.bounds.items() if isinstance(condition, Band) else ():
                steps = (cut - measure.scale.start) / measure.scale.step
                on_it = bound in ("at_least", "below")
                yield _Line(math.ceil(steps) if on_it else math.floor(steps) + 1, cut, on_it)

    def _line_at(self, name: str, index: int) -> _Line:
        """The line below the step `index`, as the first rule that draws it has it."""
        return next(line for line in self._lines(name, self._table.rules) if line.first == index)

    def _said(self, name: str, values: Sequence[Value]) -> str:
        measure = self._course.measures.get(name)
        first, last = values[0], values[-1]
        if measure is None:
            return self._any([outcome_label(self._course, name, str(value)) for value in values])
        if isinstance(measure.scale, ChoiceScale):
            return self._any([measure.scale.values[str(value)] for value in values])
        if (
            not isinstance(measure.scale, NumberScale)
            or isinstance(first, str | bool)
            or isinstance(last, str | bool)
        ):
            return self._any([self._words.say("yes") if value else self._words.say("no") for value in values])
        scale, say = measure.scale, self._words.say
        if first == scale.start:
            line = self._line_at(name, int((last - scale.start) / scale.step) + 1)
            cut = quantity(line.cut, scale.unit)
            return say("below {cut}", cut=cut) if line.on_it else say("at most {cut}", cut=cut)
        if last + scale.step > scale.stop:
            line = self._line_at(name, int((first - scale.start) / scale.step))
            cut = quantity(line.cut, scale.unit)
            return say("at least {cut}", cut=cut) if line.on_it else say("above {cut}", cut=cut)
        return span(first, last, scale.unit, self._words.say("to"))

    def _any(self, labels: Iterable[str]) -> str:
        return joined(self._words.say("or"), labels)
