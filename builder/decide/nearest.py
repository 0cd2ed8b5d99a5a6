"""Which other readings would have changed a decision: the cheapest changes to every other outcome, all of
them.

Definitions are those of the course format, "Nearest change".
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from heapq import heappop, heappush
from itertools import count, groupby, product
from typing import Any

from builder.course import NumberScale

from .budget import Unfinished
from .found import Found
from .grid import Value
from .searches import deciding
from .space import Moves, Space, step_cost
from .traversal import follow

Step = tuple[Any, int, int]
"""A state, and the level and cell by which it was left."""
_NONE = Fraction(0)


@dataclass(frozen=True, slots=True)
class Change:
    """Readings that lead a client to another outcome, all else being as recorded."""

    outcome: str
    cost: Fraction
    """The sum over changed numbers of the difference in standard errors of measurement of one reading (in
    steps where that is 0), plus 1 for each choice or yes/no."""
    change: Mapping[str, tuple[Value, Value]]
    """Measure to the recorded value and the value instead, by name."""


@dataclass(frozen=True, slots=True)
class Alternatives:
    """Changes that lead to one outcome at one cost, told in one: any mixture of the values does."""

    outcome: str
    instead: Mapping[str, tuple[Value, tuple[Value, ...]]]
    """Measure to the recorded value and the values instead."""


def grouped(changes: Iterable[Change]) -> tuple[Alternatives, ...]:
    """Changes put together where they lead to the same outcome, are of the same measures, and any mixture of
    their values is among them; the order stays."""
    told: list[Alternatives] = []
    for (outcome, names), group in groupby(changes, key=lambda one: (one.outcome, list(one.change))):
        same = [one.change for one in group]
        instead = {name: tuple(dict.fromkeys(one[name][1] for one in same)) for name in names}
        if math.prod(map(len, instead.values())) == len(same):
            together = {name: (same[0][name][0], values) for name, values in instead.items()}
            told.append(Alternatives(outcome, together))
        else:
            apart = ({name: (was, (to,)) for name, (was, to) in one.items()} for one in same)
            told += [Alternatives(outcome, one) for one in apart]
    return tuple(told)


def nearest(space: Space, found: Found, table: str) -> tuple[Change, ...]:
    """For every other outcome of a well-formed table, the cheapest changes of readings that lead there, all
    ties; sorted by cost, outcome and measures.

    A yes/no or choice that a refer or urgent caution reads is changed only if it is among the table's own
    inputs; a client's age never is. No part of a change can be left out, since the rest would lead there more
    cheaply. Empty where a reading is missing that the table needs, or the table is too large.
    """
    read = space.read_by(table)
    if not read <= found.recorded.keys():
        return ()
    here = {name: found.recorded[name].index for name in read}
    try:
        return tuple(sorted(_cheapest(space, table, here), key=_order))
    except Unfinished:
        return ()


def _order(change: Change) -> tuple[Fraction, str, list[str], list[tuple[str, Fraction]]]:
    def place(to: Value) -> tuple[str, Fraction]:
        return (str(to), _NONE) if isinstance(to, str | bool) else ("", to)

    return (
        change.cost,
        change.outcome,
        list(change.change),
        [place(to) for _, to in change.change.values()],
    )


def _cheapest(space: Space, table: str, here: Mapping[str, int]) -> Iterator[Change]:
    """Walks through the cells in order of cost (Dijkstra 1959, Numer Math 1:269-271), keeping every way that
    is no dearer than the first."""
    walk = deciding(space, table)
    outcomes = list(space.tables[table].outcomes)
    now = follow(walk, {space.levels[name]: space.axes[name].cell(index) for name, index in here.items()})
    fixed = space.read_by_referrals.difference(space.tables[table].inputs)
    moves = {space.levels[name]: _moves(space, name, index, name in fixed) for name, index in here.items()}

    wanted = {number for number in range(len(outcomes)) if number != now}
    numbers = count()
    waiting: list[tuple[int, int, Any]] = [(0, next(numbers), walk.start)]
    costs: dict[Any, int] = {walk.start: 0}
    ways: dict[Any, list[Step]] = {walk.start: []}
    ends: dict[int, Any] = {}
    dearest = 0
    while waiting:
        cost, _, state = heappop(waiting)
        if cost > costs[state]:
            continue
        if wanted <= ends.keys() and cost > dearest:
            break
        result = walk.result(state)
        if result is not None:
            ends[result], dearest = state, cost
            continue
        level, nexts = walk.level(state), walk.nexts(state)
        for cell, (extra, _) in moves[level].items():
            following, total = nexts[cell], cost + extra
            known = costs.get(following)
            if known is None or total < known:
                costs[following] = total
                ways[following] = []
                heappush(waiting, (total, next(numbers), following))
            if known is None or total <= known:
                ways[following].append((state, level, cell))

    for number in wanted & ends.keys():
        price = Fraction(costs[ends[number]], space.cost)
        for path in _paths(ways, ends[number]):
            changed = {level: moves[level][cell][1] for level, cell in path if moves[level][cell][1]}
            for indexes in product(*changed.values()):
                change = {space.measures[level]: to for level, to in zip(changed, indexes, strict=True)}
                yield Change(outcomes[number], price, _values(space, here, change))


def _paths(ways: Mapping[Any, list[Step]], end: Any) -> Iterator[list[tuple[int, int]]]:
    """Every cheapest way to a state, as the cells taken at each level."""
    if not ways[end]:
        yield []
    for state, level, cell in ways[end]:
        for path in _paths(ways, state):
            yield [*path, (level, cell)]


def _moves(space: Space, name: str, index: int, is_fixed: bool) -> Moves:
    """The cells that a measure may be changed into. The recorded cell costs nothing and changes nothing. Of
    what is fixed only numbers may change; what is known of the client never does."""
    known = space.moves.get((name, index, is_fixed))
    if known is not None:
        return known
    axis, measure = space.axes[name], space.course.measures[name]
    here, each = axis.cell(index), int(step_cost(measure) * space.cost)
    moves: dict[int, tuple[int, tuple[int, ...]]] = {here: (0, ())}
    if isinstance(measure.scale, NumberScale) and not measure.of_client:
        for number, cell in enumerate(axis.cells):
            if number != here:
                to = cell[0] if number > here else cell[-1]
                moves[number] = (abs(to - index) * each, (to,))
    elif not (is_fixed or measure.of_client):
        moves |= {n: (each, tuple(cell)) for n, cell in enumerate(axis.cells) if n != here}
    space.moves[name, index, is_fixed] = moves
    return moves


def _values(
    space: Space, here: Mapping[str, int], change: Mapping[str, int]
) -> dict[str, tuple[Value, Value]]:
    to = sorted(change.items())
    return {name: (space.value(name, here[name]), space.value(name, index)) for name, index in to}
