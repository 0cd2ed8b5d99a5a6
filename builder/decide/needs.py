"""What must be known of a client before a table can be decided (course format, "What must be known").

A set of measures is enough where every client who can exist with the same recorded values on it comes to the
same outcome, and meets the same of the cautions at which a client is sent on and whose demands name the
table: a sufficient reason (A. Shih, A. Choi, A. Darwiche, "A symbolic approach to explaining Bayesian network
classifiers", IJCAI 2018, 5103-5111).

Whoever comes to something else differs from the client in some measures. A set is enough just where it hits
all of these; so the sets asked for are the hitting sets of least cost (R. Reiter, "A theory of diagnosis from
first principles", Artificial Intelligence 1987;32:57-95, on minimal hitting sets).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from operator import ne

from builder.course import SENDS_ON

from .budget import Budget
from .found import Found
from .space import Space

MOST = 16
"""Measures up to which all sets are found."""

Family = frozenset[frozenset[int]]


@dataclass(frozen=True, slots=True)
class Needs:
    sets: tuple[tuple[str, ...], ...] = ()
    """Each with its names sorted; all of least cost, sorted. Empty where the table is not decided, or nothing
    that was read of the client is enough."""
    exact: bool = True
    """False where there are more measures than are searched, and one set stands for all."""


def needs(space: Space, found: Found, table: str) -> Needs:
    """The sets of measures that are enough for a table, nothing of which can be left out, at least cost: the
    minutes that they take. A client's age is always known, and in no set.

    Raises Unfinished where the table's diagram would grow too large.
    """
    diagrams = [space.larger_outcome(table), *(space.caution(name) for name in counting(space, table))]
    levels = sorted({level for one in diagrams for level in space.diagrams.levels(one)})
    names = {level: space.measures[level] for level in levels}
    at = {
        level: space.axes[name].cell(found.recorded[name].index)
        for level, name in names.items()
        if name in found.recorded
    }
    free = frozenset(level for level in at if space.course.measures[names[level]].of_client)
    cost = {level: space.course.measures[name].takes for level, name in names.items() if level in at}
    asked = [level for level in cost if level not in free]
    if len(asked) > MOST:
        return _one(space, diagrams, at, free, cost, names)
    budget = Budget(space.steps)
    conflicts: set[frozenset[int]] = set()
    for diagram in diagrams:
        here = result_at(space, diagram, at)
        conflicts |= conflicting(space, diagram, at, free, partial(ne, here), budget)
    best = hitting(_least(conflicts), cost)
    return Needs(tuple(sorted(tuple(sorted(names[level] for level in one)) for one in best)))


def counting(space: Space, table: str) -> list[str]:
    """The cautions at which a client is sent on and whose demands name a table."""
    cautions = space.cautions.items()
    return [name for name, one in cautions if one.level in SENDS_ON and table in one.demands]


def conflicting(
    space: Space,
    diagram: int,
    at: Mapping[int, int],
    free: frozenset[int],
    wanted: Callable[[int], bool],
    budget: Budget,
) -> Family:
    """For each way to a wanted result, the levels in which somebody on it must differ from the client who is
    in the cells `at`; the smallest alone. Nobody differs in what is `free`, nor in what was not read of the
    client: that cannot be asked.

    Raises Unfinished where there are too many ways.
    """
    known: dict[int, Family] = {}

    def below(node: int) -> Family:
        if node < 0:
            return frozenset((frozenset(),)) if wanted(~node) else frozenset()
        if node not in known:
            level = space.diagrams.level[node]
            found: set[frozenset[int]] = set()
            for cell, kid in enumerate(space.diagrams.kids[node]):
                differs = level in at and cell != at[level]
                if differs and level in free:
                    continue  # their age is known
                found |= {one | {level} for one in below(kid)} if differs else below(kid)
            budget.spend(1 + len(found))
            known[node] = _least(found)
        return known[node]

    return below(diagram)


def result_at(space: Space, diagram: int, at: Mapping[int, int]) -> int | None:
    """The result that is the client's; None where a reading is missing that makes a difference."""
    while diagram >= 0:
        level = space.diagrams.level[diagram]
        if level not in at:
            return None
        diagram = space.diagrams.kids[diagram][at[level]]
    return ~diagram


def _least(sets: Iterable[frozenset[int]]) -> Family:
    """Those of which no other is a part."""
    kept: list[frozenset[int]] = []
    for one in sorted(sets, key=lambda one: (len(one), sorted(one))):
        if not any(other <= one for other in kept):
            kept.append(one)
    return frozenset(kept)


def hitting(conflicts: Family, cost: Mapping[int, Fraction]) -> list[frozenset[int]]:
    """All minimal sets of least cost that have a member of every conflict; none where one has no member."""
    if frozenset() in conflicts:
        return []
    ordered = sorted(conflicts, key=lambda one: (len(one), sorted(one)))
    best: list[frozenset[int]] = []
    least: Fraction | None = None

    def search(chosen: frozenset[int], barred: frozenset[int], spent: Fraction) -> None:
        nonlocal least, best
        if least is not None and spent > least:
            return
        open_ = next((one for one in ordered if not one & chosen), None)
        if open_ is None:
            if least is None or spent < least:
                least, best = spent, []
            best.append(chosen)
            return
        shut = barred
        for level in sorted(open_ - barred, key=lambda level: (cost[level], level)):
            search(chosen | {level}, shut, spent + cost[level])
            shut |= {level}  # the others are tried without it, so that no set comes twice

    search(frozenset(), frozenset(), Fraction(0))
    return [one for one in set(best) if not any(_hits(one - {level}, ordered) for level in one)]


def _hits(chosen: frozenset[int], conflicts: Sequence[frozenset[int]]) -> bool:
    return all(chosen & one for one in conflicts)


def _one(
    space: Space,
    diagrams: Sequence[int],
    at: Mapping[int, int],
    free: frozenset[int],
    cost: Mapping[int, Fraction],
    names: Mapping[int, str],
) -> Needs:
    """One set that is enough: all that was read, less what can be left out, the dearest first."""

    def enough(chosen: frozenset[int]) -> bool:
        return all(_is_settled(space, one, {level: at[level] for level in chosen | free}) for one in diagrams)

    chosen = frozenset(cost) - free
    if not enough(chosen):
        return Needs(exact=False)
    for level in sorted(chosen, key=lambda level: (-cost[level], -level)):
        if enough(chosen - {level}):
            chosen -= {level}
    return Needs((tuple(sorted(names[level] for level in chosen)),), exact=False)


def _is_settled(space: Space, diagram: int, at: Mapping[int, int]) -> bool:
    """Whether everybody in these cells has one result."""
    results: set[int] = set()
    seen: set[int] = set()
    waiting = [diagram]
    while waiting:
        node = waiting.pop()
        if node < 0:
            results.add(node)
        elif node not in seen:
            seen.add(node)
            kids, level = space.diagrams.kids[node], space.diagrams.level[node]
            waiting += [kids[at[level]]] if level in at else kids
    return len(results) == 1
