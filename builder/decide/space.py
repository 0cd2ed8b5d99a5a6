"""All clients who can exist, as the rules tell them apart, and every decision about them as a diagram."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import TypeVar

from builder.course import SENDS_ON, AnyOf, Condition, Course, Measure, NumberScale, Table, When

from . import grid, pathway
from .budget import Budget, Unfinished
from .cells import axis
from .diagram import Diagrams
from .matching import matching
from .product_search import Factor, ProductSearch
from .variable_order import ordered_measures
from .well_formed import well_formed_cautions, well_formed_tables

STEPS = 240_000
"""The work allowed for all searches about one table, caution or exercise; an eighth of it for
the diagram of one table over all clients."""

_DEEPEST = 200
"""How many measures one decision may depend on: diagrams are walked by recursion."""


_Made = TypeVar("_Made", int, "LocalDiagrams")

Weights = tuple[tuple[int, float], ...]
"""Cells of one measure, each with its probability."""
Moves = Mapping[int, tuple[int, tuple[int, ...]]]
"""Each cell that a measure may be changed into: what it costs in parts of `Space.cost`, and the indexes that
cost it."""


@dataclass(frozen=True, slots=True)
class Turn:
    """A number at which a decision turns, all else being as recorded."""

    measure: str
    at: Fraction
    """Midway between the last step on one side and the first on the other, in the measure's unit."""
    beyond: str | None
    """The outcome on the far side; None where there is none."""


@dataclass(frozen=True, slots=True)
class LocalDiagrams:
    """A table over its own inputs alone, as two diagrams."""

    rules: int
    """Results: the number of the rule that counts, in the order written, or one of the three below."""
    outcomes: int
    """Results: the number of the outcome, in the order written; the number of outcomes where there is
    none."""
    gap: int
    overlap: int
    not_reached: int


class Space:
    """The cells of every measure, and the diagrams of every well-formed table and caution, made when asked
    for.

    Tables and cautions that are not well-formed are left out. Measures stand at the levels 0, 1, ... of the
    diagrams, in the order of `measures`; below them each table has a level of its own, where it is an input
    of another.
    """

    def __init__(self, course: Course, steps: int = STEPS) -> None:
        self.course = course
        self.steps = steps
        self.diagrams = Diagrams()
        self.tables = well_formed_tables(course)
        """In pathway order."""
        self.cautions = well_formed_cautions(course)
        """By name."""
        self.measures = ordered_measures(course, self.tables, self.cautions)
        """Every measure that has a domain."""
        self.levels = {name: level for level, name in enumerate(self.measures)}
        self.slots = {name: len(self.measures) + number for number, name in enumerate(self.tables)}
        told = self._conditions()
        self.axes = {name: axis(course.measures[name], told[name]) for name in self.measures}
        self.widths = {level: len(self.axes[name].cells) for name, level in self.levels.items()}
        self._locals: dict[str, LocalDiagrams | None] = {}
        self._outcomes: dict[str, int | None] = {}
        self._larger: dict[str, int | None] = {}
        self._cautions: dict[str, int | None] = {}
        self._read_by: dict[str, frozenset[str]] = {}
        # Few readings and fewer cells are possible, so that clients share what follows from either.
        self.weights: dict[tuple[str, int, int], Weights] = {}
        """Measure, index and trials to the cells of the true value; see `doubt`."""
        self.turns: dict[tuple[str, tuple[int, ...]], tuple[Turn, ...]] = {}
        """Table and cells to where it turns; see `doubt`."""
        self.moves: dict[tuple[str, int, bool], Moves] = {}
        """Measure, index and whether it is fixed to its moves; see `nearest`."""
        self.harmed: dict[tuple[str, str], int] = {}
        """Table and outcome to for whom it would be serious; see `acting`."""
        self._values: dict[tuple[str, int], grid.Value] = {}
        for name, table in self.tables.items():
            own = {one for one in table.inputs if one in self.levels}
            self._read_by[name] = frozenset(own.union(*(self._read_by[feed] for feed in self.feeds(name))))

    @cached_property
    def cost(self) -> int:
        """Into how many parts a cost of 1 is divided, so that every cost of a change is a whole number."""
        return math.lcm(*(step_cost(measure).denominator for measure in self.course.measures.values()))

    @cached_property
    def read_by_referrals(self) -> frozenset[str]:
        """As the function of this name, of this course."""
        return read_by_referrals(self.course)

    def value(self, name: str, index: int) -> grid.Value:
        """The value of a measure at an index on its domain. Raises IndexError outside it."""
        key = name, index
        if key not in self._values:
            self._values[key] = grid.value(self.course.measures[name], index)
        return self._values[key]

    def feeds(self, table: str) -> tuple[str, ...]:
        """The tables among a table's inputs."""
        return pathway.feeds(self.course, table)

    def read_by(self, table: str) -> frozenset[str]:
        """The measures that a table reads, by itself or through the tables that feed it."""
        return self._read_by[table]

    def local(self, table: str) -> LocalDiagrams:
        """The table over its own inputs. Raises Unfinished."""
        if table not in self._locals:
            self._locals[table] = None
            if len(self.read_by(table)) > _DEEPEST:
                raise Unfinished
            self._locals[table] = self._local(self.tables[table], Budget(self.steps))
        return _finished(self._locals[table])

    def outcome(self, table: str) -> int:
        """A table's outcome for every client. Results: the number of the outcome, in the order written; the
        number of outcomes for a client who has none. Raises Unfinished where it would grow too large; what is
        asked about the table is then searched for without it."""
        return self._made(table, self._outcomes, self.steps // 8)

    def larger_outcome(self, table: str) -> int:
        """As `outcome`, with eight times as much work allowed. Raises Unfinished."""
        return self._made(table, self._larger, self.steps)

    def outcome_if(self, table: str, fixed: Mapping[str, int]) -> int:
        """As `larger_outcome`, where the outcomes of some tables are set by their numbers, and all that rests
        on them is worked out anew. Raises Unfinished."""
        made: dict[str, int | None] = {}
        for name in reversed(pathway.tables_behind(self.course, table)):
            made[name] = ~fixed[name] if name in fixed else None
        for name in (one for one in self.tables if one in made and one not in fixed):
            is_new = any(made[feed] != self._larger.get(feed) for feed in self.feeds(name))
            made[name] = self._outcome(name, made, self.steps) if is_new else self.larger_outcome(name)
        return _finished(made[table])

    def _made(self, table: str, made: dict[str, int | None], steps: int) -> int:
        # In pathway order, so that a long chain of tables does not become as deep a recursion.
        for name in self.tables if table not in made else ():
            if name not in made:
                made[name] = None
                with suppress(Unfinished):
                    made[name] = self._outcome(name, made, steps)
            if name == table:
                break
        return _finished(made[table])

    def _outcome(self, table: str, made: Mapping[str, int | None], steps: int) -> int:
        local = self.local(table)
        parts = [Factor(_finished(made[feed]), self.slots[feed]) for feed in self.feeds(table)]
        parts.append(Factor(local.outcomes))
        return ProductSearch(self.diagrams, parts, Budget(steps)).composed()

    def box_of_values(self, found: Mapping[str, Sequence[grid.Value]]) -> dict[int, int]:
        """The box of all cells and outcomes with one of the values given for each input; for numbers, between
        the first value and the last. It holds others too where values lie in one cell."""
        box = {}
        for name, values in found.items():
            if name in self.levels:
                box[self.levels[name]] = self.axes[name].cells_of(values)
            else:
                outcomes = enumerate(self.tables[name].outcomes)
                box[self.slots[name]] = sum(1 << number for number, one in outcomes if one in values)
        return box

    def measures_in(self, box: Mapping[int, int]) -> dict[int, int]:
        """A box over a table's inputs as far as it is about measures."""
        return {level: cells for level, cells in box.items() if level in self.widths}

    def outcomes_in(self, table: str, box: Mapping[int, int]) -> dict[str, int]:
        """The outcomes that the tables that feed a table may have in a box over its inputs."""
        return {
            feed: box.get(self.slots[feed], -1) & (1 << len(self.tables[feed].outcomes)) - 1
            for feed in self.feeds(table)
        }

    def caution(self, name: str) -> int:
        """The set of clients who meet a caution. Raises Unfinished."""
        if name not in self._cautions:
            self._cautions[name] = None
            whens = self.cautions[name].when
            if len({measure for when in whens for measure in when}) > _DEEPEST:
                raise Unfinished
            budget = Budget(self.steps)
            first = self._matching(whens, {}, "first", budget)
            self._cautions[name] = self.diagrams.renamed(first, lambda n: int(n < len(whens)), budget)
        return _finished(self._cautions[name])

    def box(self, when: When) -> dict[int, int]:
        """The cells that a set of conditions admits, by the level of the measure or table they are about."""
        return {self._level(name): self._admits(name, one) for name, one in when.items()}

    def cells(self, client: grid.Client) -> list[int]:
        """The cells of a client, by level."""
        return [self.axes[name].cell(client[name]) for name in self.measures]

    def client(self, cells: Mapping[int, int]) -> dict[str, int]:
        """A client in these cells, by level: in the middle of a number's cell, at the first value of others.
        Measures without a cell are free and take the middle of their domain, or their first value."""
        found = {}
        for name, measure in self.course.measures.items():
            level = self.levels.get(name)
            if level is not None:
                size = grid.size(measure)
                cell = self.axes[name].cells[cells[level]] if level in cells else range(size)
                is_number = isinstance(measure.scale, NumberScale)
                found[name] = (cell[0] + cell[-1]) // 2 if is_number else cell[0]
        return found

    def _level(self, name: str) -> int:
        level = self.levels.get(name)
        return self.slots[name] if level is None else level

    def _admits(self, name: str, condition: Condition) -> int:
        if name in self.levels:
            return self.axes[name].admits(condition)
        assert isinstance(condition, AnyOf)
        outcomes = enumerate(self.tables[name].outcomes)
        return sum(1 << number for number, outcome in outcomes if outcome in condition.names)

    def _conditions(self) -> dict[str, list[Condition]]:
        found: dict[str, list[Condition]] = {name: [] for name in self.measures}
        whens = [rule.when for table in self.tables.values() for rule in table.rules]
        whens += [when for caution in self.cautions.values() for when in caution.when]
        for when in whens:
            for name, condition in when.items():
                if name in found and condition not in found[name]:
                    found[name].append(condition)
        return found

    def _local(self, table: Table, budget: Budget) -> LocalDiagrams:
        count, none = len(table.rules), len(table.outcomes)
        whens = [rule.when for rule in table.rules]
        fed = {self.slots[feed]: len(self.tables[feed].outcomes) for feed in self.feeds(table.name)}
        rules = self._matching(whens, fed, table.policy, budget)
        numbers = {name: number for number, name in enumerate(table.outcomes)}
        leads = [numbers[rule.then] for rule in table.rules]
        outcomes = self.diagrams.renamed(rules, lambda n: leads[n] if n < count else none, budget)
        return LocalDiagrams(rules, outcomes, count, count + 1, count + 2)

    def _matching(self, whens: Sequence[When], fed: Mapping[int, int], policy: str, budget: Budget) -> int:
        """Which of some sets of conditions counts; see `matching`."""
        boxes = [self.box(when) for when in whens]
        measured = {level: self.widths[level] for box in boxes for level in box if level in self.widths}
        return matching(self.diagrams, boxes, measured, fed, policy, budget)


def read_by_referrals(course: Course) -> frozenset[str]:
    """The measures that some caution reads at which a client is sent on."""
    cautions = (caution for caution in course.cautions.values() if caution.level in SENDS_ON)
    return frozenset(name for caution in cautions for when in caution.when for name in when)


def step_cost(measure: Measure) -> Fraction:
    """What it costs to change a measure by a step: in standard errors of measurement of one reading, 1 where
    that is 0 and for anything but a number."""
    scale = measure.scale
    return scale.step / scale.sem if isinstance(scale, NumberScale) and scale.sem else Fraction(1)


def _finished(made: _Made | None) -> _Made:
    if made is None:
        raise Unfinished
    return made
