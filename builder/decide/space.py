"""All clients who can exist, as the rules tell them apart, and every decision about them as a diagram."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Any, TypeVar

from builder.course import AnyOf, Caution, Condition, Course, NumberScale, Table, When

from . import grid, pathway
from .budget import Budget, Unfinished
from .cells import axis, fits, is_sound
from .diagram import YES, Diagrams
from .product_search import Factor, ProductSearch
from .traversal import DiagramTraversal, Traversal
from .variable_order import ordered_measures

STEPS = 240_000
"""The work allowed for all searches about one table, caution or exercise; an eighth of it for
the diagram of one table over all clients."""

_DEEPEST = 200
"""How many measures one decision may depend on: diagrams are walked by recursion."""


_Made = TypeVar("_Made", int, "Local")


@dataclass(frozen=True, slots=True)
class Local:
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

    A table or caution is well-formed when all that it names is there and of the right kind, and no table
    needs itself. The others are left out. Measures stand at the levels 0, 1, ... of the diagrams, in the
    order of `measures`; below them each table has a level of its own, where it is an input of another.
    """

    def __init__(self, course: Course, steps: int = STEPS) -> None:
        self.course = course
        self.steps = steps
        self.diagrams = Diagrams()
        self.tables: dict[str, Table] = {}
        """In pathway order."""
        for name in pathway.order(course):
            if _is_sound_table(course, course.tables[name], self.tables):
                self.tables[name] = course.tables[name]
        self.cautions: dict[str, Caution] = {
            name: caution
            for name, caution in sorted(course.cautions.items())
            if _is_sound_caution(course, caution)
        }
        self.measures = ordered_measures(course, self.tables, self.cautions)
        """Every measure that has a domain."""
        self.levels = {name: level for level, name in enumerate(self.measures)}
        self.slots = {name: len(self.measures) + number for number, name in enumerate(self.tables)}
        told = self._conditions()
        self.axes = {name: axis(course.measures[name], told[name]) for name in self.measures}
        self.widths = {level: len(self.axes[name].cells) for name, level in self.levels.items()}
        self._locals: dict[str, Local | None] = {}
        self._outcomes: dict[str, int | None] = {}
        self._larger: dict[str, int | None] = {}
        self._cautions: dict[str, int | None] = {}
        self._cones: dict[str, frozenset[str]] = {}
        for name, table in self.tables.items():
            own = {one for one in table.inputs if one in self.levels}
            self._cones[name] = frozenset(own.union(*(self._cones[feed] for feed in self.feeds(name))))

    def feeds(self, table: str) -> tuple[str, ...]:
        """The tables among a table's inputs."""
        return pathway.feeds(self.course, table)

    def cone(self, table: str) -> frozenset[str]:
        """The measures that a table reads, by itself or through the tables that feed it."""
        return self._cones[table]

    def local(self, table: str) -> Local:
        """The table over its own inputs. Raises Unfinished."""
        if table not in self._locals:
            self._locals[table] = None
            if len(self.cone(table)) > _DEEPEST:
                raise Unfinished
            self._locals[table] = self._local(self.tables[table], Budget(self.steps))
        return _finished(self._locals[table])

    def outcome(self, table: str) -> int:
        """A table's outcome for every client. Results: the number of the outcome, in the order written; the
        number of outcomes for a client who has none. Raises Unfinished where it would grow too large; what is
        asked about the table is then searched for without it."""
        return self._made(table, self._outcomes, self.steps // 8)

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

    def feeding(self, tables: Iterable[str]) -> list[Factor]:
        """What stands before some tables in a `ProductSearch`: the tables that feed them, each as its outcome
        for every client where that could be made, else over what feeds it in turn. Raises Unfinished."""
        parts: dict[str, Factor] = {}
        waiting = [feed for table in tables for feed in self.feeds(table)]
        while waiting:
            feed = waiting.pop()
            if feed not in parts:
                try:
                    parts[feed] = Factor(self.outcome(feed), self.slots[feed])
                except Unfinished:
                    parts[feed] = Factor(self.local(feed).outcomes, self.slots[feed])
                    waiting += self.feeds(feed)
        return [parts[name] for name in self.tables if name in parts]

    def asked(self, table: str) -> list[Factor]:
        """A table's outcome as the last factor of a search, with all that feeds it. Raises Unfinished."""
        try:
            return [Factor(self.outcome(table))]
        except Unfinished:
            return [*self.feeding((table,)), Factor(self.local(table).outcomes)]

    def demanded(self, outcomes: Mapping[str, int]) -> list[Factor]:
        """Tables that must have one of some outcomes, given as bit sets, as factors of a search, with all
        that feeds them. Raises Unfinished."""
        parts: list[Factor] = []
        for table, wanted in outcomes.items():
            *before, asked = self.asked(table)
            parts += [part for part in before if part not in parts]
            parts.append(Factor(asked.diagram, wanted=wanted))
        return parts

    def holding(self, found: Mapping[str, Sequence[grid.Value]]) -> dict[int, int]:
        """The box of all cells and outcomes with one of the values given for each input; for numbers, between
        the first value and the last. It holds others too where values lie in one cell."""
        box = {}
        for name, values in found.items():
            if name in self.levels:
                box[self.levels[name]] = self.axes[name].holding(values)
            else:
                outcomes = enumerate(self.tables[name].outcomes)
                box[self.slots[name]] = sum(1 << number for number, one in outcomes if one in values)
        return box

    def someone(self, table: str, box: Mapping[int, int], budget: Budget) -> grid.Client | None:
        """Someone who reaches a table within a box over its inputs. Raises Unfinished."""
        if not all(box.values()):
            return None
        measured = self.measured(box)
        parts = [*self.demanded(self.fed(table, box)), Factor(YES)]
        found = ProductSearch(self.diagrams, parts, budget).first(1 << ~YES, measured)
        if not found:
            return None
        lowest = {level: (cells & -cells).bit_length() - 1 for level, cells in measured.items()}
        return self.client(lowest | found[~YES])

    def measured(self, box: Mapping[int, int]) -> dict[int, int]:
        """A box over a table's inputs as far as it is about measures."""
        return {level: cells for level, cells in box.items() if level in self.widths}

    def fed(self, table: str, box: Mapping[int, int]) -> dict[str, int]:
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
            first = self._matching(whens, (), "first", budget)
            self._cautions[name] = self.diagrams.renamed(first, lambda n: int(n < len(whens)), budget)
        return _finished(self._cautions[name])

    def deciding(self, table: str) -> Traversal[Any]:
        """A table's outcome, to be followed for one client; results as in `outcome`. Since it will be asked
        for many clients, more work is allowed for its diagram. Raises Unfinished."""
        try:
            return DiagramTraversal(self.diagrams, self.outcome(table))
        except Unfinished:
            pass
        try:
            return DiagramTraversal(self.diagrams, self._made(table, self._larger, self.steps))
        except Unfinished:
            return ProductSearch(self.diagrams, self.asked(table), Budget(self.steps // 8))

    def meeting(self, caution: str) -> Traversal[Any]:
        """Whether one client meets a caution, to be followed: 1 or 0. Raises Unfinished."""
        return DiagramTraversal(self.diagrams, self.caution(caution))

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

    def _local(self, table: Table, budget: Budget) -> Local:
        count, none = len(table.rules), len(table.outcomes)
        whens = [rule.when for rule in table.rules]
        rules = self._matching(whens, self.feeds(table.name), table.policy, budget)
        numbers = {name: number for number, name in enumerate(table.outcomes)}
        leads = [numbers[rule.then] for rule in table.rules]
        outcomes = self.diagrams.renamed(rules, lambda n: leads[n] if n < count else none, budget)
        return Local(rules, outcomes, count, count + 1, count + 2)

    def _matching(self, whens: Sequence[When], feeds: Iterable[str], policy: str, budget: Budget) -> int:
        """Which of some sets of conditions counts, over their own inputs.

        Results: its number; the count of sets where none holds; one more where several do and the policy is
        `unique`; two more where one of the tables in `feeds` has no outcome.

        Goes through the inputs one by one with the bit set of those that may still hold. A state is left
        early once what is still open can no longer change the result, so that few states differ.
        """
        gap, overlap, not_reached = ~len(whens), ~(len(whens) + 1), ~(len(whens) + 2)
        boxes = [self.box(when) for when in whens]
        measured = sorted({level for box in boxes for level in box if level < len(self.measures)})
        slots = sorted(self.slots[name] for name in feeds)
        levels = measured + slots
        names = {slot: name for name, slot in self.slots.items()}
        widths = [self.widths[level] for level in measured] + [
            len(self.tables[names[slot]].outcomes) for slot in slots
        ]
        admit = [
            [_bits(box.get(level, -1) >> cell & 1 for box in boxes) for cell in range(width)]
            for level, width in zip(levels, widths, strict=True)
        ]
        settled = [
            _bits(all(level not in box for level in levels[place:]) for box in boxes)
            for place in range(len(levels) + 1)
        ]
        node = self.diagrams.node
        done: dict[tuple[int, int], int] = {}

        def sure(place: int, result: int) -> int:
            for n in range(len(levels) - 1, max(place, len(measured)) - 1, -1):
                result = node(levels[n], (result,) * widths[n] + (not_reached,))
            return result

        def match(place: int, alive: int) -> int:
            hold = alive & settled[place]
            top = hold & -hold
            if policy == "first" and top:
                alive &= (top << 1) - 1
            elif hold != top:
                return sure(place, overlap)
            if not alive:
                return sure(place, gap)
            if alive == top:
                return sure(place, ~(top.bit_length() - 1))
            found = done.get((place, alive))
            if found is None:
                budget.spend()
                kids = [match(place + 1, alive & some) for some in admit[place]]
                if place >= len(measured):
                    kids.append(not_reached)
                done[place, alive] = found = node(levels[place], tuple(kids))
            return found

        return match(0, (1 << len(whens)) - 1)


def _bits(flags: Iterable[bool | int]) -> int:
    return sum(1 << number for number, flag in enumerate(flags) if flag)


def _finished(made: _Made | None) -> _Made:
    if made is None:
        raise Unfinished
    return made


def _is_sound_table(course: Course, table: Table, sound: Mapping[str, Table]) -> bool:
    return all(
        is_sound(course.measures[name]) if name in course.measures else name in sound for name in table.inputs
    ) and all(
        rule.then in table.outcomes
        and all(name in table.inputs and _fits(course, name, one) for name, one in rule.when.items())
        for rule in table.rules
    )


def _is_sound_caution(course: Course, caution: Caution) -> bool:
    return all(
        name in course.measures and is_sound(course.measures[name]) and fits(one, course.measures[name])
        for when in caution.when
        for name, one in when.items()
    )


def _fits(course: Course, name: str, condition: Condition) -> bool:
    if name in course.measures:
        return fits(condition, course.measures[name])
    outcomes = course.tables[name].outcomes
    return isinstance(condition, AnyOf) and all(one in outcomes for one in condition.names)
