"""What must have been asked of a client before a decision is known, and what guessing it leaves open (course
format, "What must be known").

Whatever was asked, somebody who answers alike differs from the client only in what was not. So a decision is
known just where what was asked has a measure of every set in which somebody with another one must differ. An
answer is unsafe for want of asking where somebody for whom it would be serious differs in nothing that was.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from itertools import product
from operator import ne

from builder.course import NumberScale, first_taken

from .acting import serious
from .budget import Budget
from .found import Found
from .grid import Value
from .needs import Family, conflicting, counting, hitting, result_at
from .space import Space, step_cost

Sets = tuple[tuple[str, ...], ...]
"""Sets of measures, the names in each sorted, the sets sorted by size and names."""


@dataclass(frozen=True, slots=True)
class Twin:
    """Somebody who answers alike, but for what stands in `change`."""

    change: Mapping[str, tuple[Value, Value]]
    """Measure to what was recorded of the client and what it is of the twin, by name."""
    outcome: str | None
    """What is right for them."""


@dataclass(frozen=True, slots=True)
class Asking:
    """All that follows from what was asked before a client is decided about at one table."""

    differing: Sets
    """The smallest sets of which one measure each must be asked before the outcome is known."""
    going_on: Sets
    """The same before it is known that the outcome ends; the empty set is among them where it does not."""
    twins: Mapping[str, tuple[Twin, ...]]
    """Outcome that does not end to those for whom it would be serious: one for every smallest set of measures
    in which they differ; the fewest first, then the least change, then by names and values. None where it is
    serious for the client, whatever else was asked."""

    def is_known(self, asked: Collection[str]) -> bool:
        """Whether what was asked is enough, or every outcome that is still possible ends."""
        return _hits(self.differing, asked) or _hits(self.going_on, asked)

    def unsafe(self, answer: str, asked: Collection[str]) -> Twin | None:
        """Who else would have come to harm by the same answer, going by what was asked; None where nobody."""
        return next((one for one in self.twins.get(answer, ()) if one.change.keys().isdisjoint(asked)), None)


def asking(space: Space, found: Found, table: str) -> Asking | None:
    """Of a well-formed table at which the client has an outcome. Raises Unfinished."""
    budget, diagram = Budget(space.steps), space.larger_outcome(table)
    at, free = _cells(space, found)
    result = result_at(space, diagram, at)
    outcomes = list(space.tables[table].outcomes)
    if result is None or result >= len(outcomes):
        return None
    differing = conflicting(space, diagram, at, free, partial(ne, result), budget)
    for name in counting(space, table):
        caution = space.caution(name)
        here = result_at(space, caution, at)
        differing |= conflicting(space, caution, at, free, partial(ne, here), budget)
    goes_on = [not space.tables[table].outcomes[name].ends for name in outcomes]
    going_on = conflicting(space, diagram, at, free, lambda one: one < len(goes_on) and goes_on[one], budget)
    twins = {
        name: tuple(_twins(space, found, table, serious(space, table, name), at, free, budget))
        for name, other in zip(outcomes, goes_on, strict=True)
        if other
    }
    return Asking(_named(space, differing), _named(space, going_on), twins)


def least_minutes(space: Space, every: Iterable[Asking], told: Collection[str] = ()) -> Fraction | None:
    """The least time that what is asked must take so that every decision is known; None where something that
    was not read would have to be. What is `told` without being asked takes no time; what is read in one go
    takes its time together."""
    measures = space.course.measures
    goes = {name: first_taken(measures, name) for name in measures}
    number = {name: at for at, name in enumerate(measures)}
    sets = {frozenset(number[goes[name]] for name in one) for each in every for one in each.differing}
    cost = {at: Fraction(0) for at in number.values()}
    for name, one in measures.items():
        cost[number[goes[name]]] += Fraction(0) if name in told else one.takes
    best = hitting(frozenset(sets), cost)
    return sum((cost[at] for at in best[0]), Fraction(0)) if best else None


def _hits(sets: Sets, asked: Collection[str]) -> bool:
    return all(any(name in asked for name in one) for one in sets)


def _cells(space: Space, found: Found) -> tuple[dict[int, int], frozenset[int]]:
    """The client's cells by level, and the levels that are known without asking."""
    at = {
        level: space.axes[name].cell(found.recorded[name].index)
        for name, level in space.levels.items()
        if name in found.recorded
    }
    return at, frozenset(level for level in at if space.course.measures[space.measures[level]].of_client)


def _named(space: Space, sets: Family) -> Sets:
    named = (tuple(sorted(space.measures[level] for level in one)) for one in sets)
    return tuple(sorted(named, key=lambda one: (len(one), one)))


def _twins(
    space: Space,
    found: Found,
    table: str,
    harmed: int,
    at: Mapping[int, int],
    free: frozenset[int],
    budget: Budget,
) -> list[Twin]:
    sets = conflicting(space, harmed, at, free, bool, budget) - {frozenset()}
    twins = [_cheapest(space, found, table, harmed, at, apart, budget) for apart in sets]
    return [twin for _, twin in sorted(twins, key=lambda one: one[0])]


_Order = tuple[int, Fraction, list[str], list[tuple[str, Fraction]]]


def _cheapest(
    space: Space,
    found: Found,
    table: str,
    harmed: int,
    at: Mapping[int, int],
    apart: frozenset[int],
    budget: Budget,
) -> tuple[_Order, Twin]:
    """Of all in a set who differ from the client in just these levels, and in what was not read of the
    client: whose readings change least."""
    names = sorted(space.measures[level] for level in apart)
    ways = [list(_moves(space, found, name)) for name in names]
    best: tuple[_Order, Twin] | None = None
    for way in product(*ways):
        budget.spend()
        cells = {**at, **{space.levels[name]: cell for name, (_, cell, _) in zip(names, way, strict=True)}}
        if not _is_possible(space, harmed, cells):
            continue
        cost = sum((each for each, _, _ in way), Fraction(0))
        values = [space.value(name, index) for name, (_, _, index) in zip(names, way, strict=True)]
        order: _Order = len(names), cost, names, [_place(value) for value in values]
        if best is None or order < best[0]:
            here = [space.value(name, found.recorded[name].index) for name in names]
            change = dict(zip(names, zip(here, values, strict=True), strict=True))
            number = result_at(space, space.larger_outcome(table), cells)
            outcomes = list(space.tables[table].outcomes)
            known = number is not None and number < len(outcomes)
            best = order, Twin(change, outcomes[number] if known and number is not None else None)
    assert best is not None, "somebody differs in just these"
    return best


def _moves(space: Space, found: Found, name: str) -> Iterator[tuple[Fraction, int, int]]:
    """What a measure may be instead: the cost as in nearest changes, the cell and the index; of a number the
    nearest in each cell."""
    axis, measure, here = space.axes[name], space.course.measures[name], found.recorded[name].index
    each = step_cost(measure)
    for number, cell in enumerate(axis.cells):
        if number == axis.cell(here):
            continue
        if isinstance(measure.scale, NumberScale):
            to = cell[0] if cell[0] > here else cell[-1]
            yield abs(to - here) * each, number, to
        else:
            yield from ((Fraction(1), number, to) for to in cell)


def _place(value: Value) -> tuple[str, Fraction]:
    return (str(value), Fraction(0)) if isinstance(value, str | bool) else ("", value)


def _is_possible(space: Space, diagram: int, cells: Mapping[int, int]) -> bool:
    """Whether somebody in these cells is in a set."""
    seen: set[int] = set()
    waiting = [diagram]
    while waiting:
        node = waiting.pop()
        if node >= 0 and node not in seen:
            seen.add(node)
            kids, level = space.diagrams.kids[node], space.diagrams.level[node]
            waiting += [kids[cells[level]]] if level in cells else kids
        elif node < 0 and ~node:
            return True
    return False
