"""A decision table as a tree of questions, one input at a time, as small as its inputs' order allows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.course import Condition, Course, NumberScale, Rule, Table

from . import grid
from .budget import Budget
from .evaluate import holds
from .grid import Value
from .lines import DrawnLine, drawn_lines
from .searches import someone
from .space import Space


@dataclass(frozen=True, slots=True)
class Leaf:
    outcome: str | None
    """None where no rule matches."""


@dataclass(frozen=True, slots=True)
class Way:
    values: tuple[Value, ...]
    """What leads here. For numbers the first and the last value of a run."""
    to: Fork | Leaf
    line: DrawnLine | None = None
    """For a run of numbers at an end of the domain: the one line that bounds it, as the first rule that draws
    it has it."""


@dataclass(frozen=True, slots=True)
class Fork:
    input: str
    """The measure or earlier table that is asked."""
    ways: tuple[Way, ...]


Tree = Fork | Leaf


def tree_of(course: Course, table: Table, space: Space | None = None) -> Tree:
    """The tree of a table.

    With `space`, branches that no client can reach are left out. Raises Unfinished where finding these takes
    more than an eighth of the work that the space allows for a proof.
    """
    grower = _Grower(course, table)
    tree = grower.grow(tuple(table.rules), tuple(table.inputs))
    return tree if space is None else grower.pruned(tree, {}, space, Budget(space.steps // 8))


def leaves(tree: Tree) -> int:
    """How many ends a tree has."""
    return sum(leaves(way.to) for way in tree.ways) if isinstance(tree, Fork) else 1


class _Grower:
    def __init__(self, course: Course, table: Table) -> None:
        self._course = course
        self._table = table

    def grow(self, rules: tuple[Rule, ...], inputs: tuple[str, ...]) -> Tree:
        if not rules:
            return Leaf(None)
        if not any(name in rules[0].when for name in inputs):
            return Leaf(rules[0].then)
        name, rest = inputs[0], inputs[1:]
        runs: list[tuple[list[Value], Tree]] = []
        known: dict[tuple[str, ...], Tree] = {}
        for value, last in self._runs(name, rules):
            left = tuple(rule for rule in rules if name not in rule.when or holds(rule.when[name], value))
            key = tuple(rule.id for rule in left)
            if key not in known:
                known[key] = self.grow(left, rest)
            _add(runs, value, last, known[key])
        return self._fork(name, runs)

    def pruned(self, tree: Tree, found: Mapping[str, Sequence[Value]], space: Space, budget: Budget) -> Tree:
        """The tree without what nobody reaches who was `found` so far. Numbers that nobody has go to a
        neighbour, so that the ways still part only where a rule draws a line."""
        if isinstance(tree, Leaf):
            return tree

        def arises(values: tuple[Value, ...]) -> bool:
            box = space.box_of_values({**found, tree.input: values})
            return someone(space, self._table.name, box, budget) is not None

        runs: list[tuple[list[Value], Tree]] = []
        passed: Value | None = None
        for way in tree.ways:
            numeric = not isinstance(way.values[0], str | bool)
            parts = [way.values] if numeric else [(value,) for value in way.values]
            values = tuple(value for part in parts if arises(part) for value in part)
            if values:
                to = self.pruned(way.to, {**found, tree.input: values}, space, budget)
                if numeric:
                    _add(runs, values[0] if passed is None else passed, values[-1], to)
                else:
                    for value in values:
                        _add(runs, value, value, to)
                passed = None
            elif numeric and runs:
                runs[-1][0][-1] = way.values[-1]
            elif numeric and passed is None:
                passed = way.values[0]
        return self._fork(tree.input, runs) if runs else tree

    def _fork(self, name: str, runs: Sequence[tuple[list[Value], Tree]]) -> Tree:
        if len(runs) == 1:
            return runs[0][1]
        return Fork(name, tuple(Way(tuple(values), to, self._line(name, values)) for values, to in runs))

    def _runs(self, name: str, rules: Sequence[Rule]) -> list[tuple[Value, Value]]:
        """First and last value of every run that no rule tells apart."""
        measure = self._course.measures.get(name)
        if measure is None:
            table = self._course.tables.get(name)
            return [(outcome, outcome) for outcome in (table.outcomes if table else ())]
        size = grid.size(measure)
        firsts = list(range(size))
        if isinstance(measure.scale, NumberScale):
            lines = drawn_lines(measure.scale, _conditions(name, rules))
            firsts = sorted({0, *(line.above for line in lines if 0 < line.above < size)})
        return [
            (grid.value(measure, first), grid.value(measure, after - 1))
            for first, after in zip(firsts, [*firsts[1:], size], strict=True)
        ]

    def _line(self, name: str, values: Sequence[Value]) -> DrawnLine | None:
        """The line that bounds a run at an end of a number's domain; None for all else."""
        measure = self._course.measures.get(name)
        first, last = values[0], values[-1]
        if measure is None or isinstance(first, str | bool) or isinstance(last, str | bool):
            return None
        scale = measure.scale
        assert isinstance(scale, NumberScale)
        if first == scale.start:
            above = (last - scale.start) / scale.step + 1
        elif last + scale.step > scale.stop:
            above = (first - scale.start) / scale.step
        else:
            return None
        lines = drawn_lines(scale, _conditions(name, self._table.rules))
        return next(line for line in lines if line.above == above)


def _conditions(name: str, rules: Sequence[Rule]) -> list[Condition]:
    """What rules ask of one input."""
    return [rule.when[name] for rule in rules if name in rule.when]


def _add(runs: list[tuple[list[Value], Tree]], value: Value, last: Value, to: Tree) -> None:
    """One more run, or a longer one where it leads to the same: of numbers the last, of findings any."""
    numeric = not isinstance(value, str | bool)
    for values, tree in runs[-1:] if numeric else runs:
        if tree == to:
            if numeric:
                values[-1] = last
            else:
                values.append(value)
            return
    runs.append(([value, last] if numeric else [value], to))
