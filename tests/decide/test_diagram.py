"""Diagrams against the functions that they stand for, point by point."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.decide.budget import Budget, Unfinished
from builder.decide.diagram import NO, YES, Diagrams
from builder.decide.matching import matching
from builder.decide.traversal import DiagramTraversal, follow

WIDTHS = {0: 2, 1: 3, 2: 2}
POINTS = list(product(*map(range, WIDTHS.values())))
Function = Mapping[tuple[int, ...], int]

functions = st.lists(st.integers(0, 2), min_size=len(POINTS), max_size=len(POINTS)).map(
    lambda results: dict(zip(POINTS, results, strict=True))
)
sets = st.lists(st.integers(0, 1), min_size=len(POINTS), max_size=len(POINTS)).map(
    lambda results: dict(zip(POINTS, results, strict=True))
)


def drawn(diagrams: Diagrams, function: Function, point: tuple[int, ...] = ()) -> int:
    if len(point) == len(WIDTHS):
        return ~function[point]
    kids = [drawn(diagrams, function, (*point, cell)) for cell in range(WIDTHS[len(point)])]
    return diagrams.node(len(point), tuple(kids))


def stands_for(diagrams: Diagrams, diagram: int, function: Callable[[tuple[int, ...]], int]) -> bool:
    return all(diagrams.at(diagram, point) == function(point) for point in POINTS)


def depends_on(function: Function, level: int) -> bool:
    def others(point: Sequence[int]) -> tuple[int, ...]:
        return (*point[:level], *point[level + 1 :])

    return any(
        function[one] != function[two] for one in POINTS for two in POINTS if others(one) == others(two)
    )


@given(functions)
def test_a_diagram_has_the_results_and_asks_the_levels_of_its_function(function: Function) -> None:
    diagrams = Diagrams()
    diagram = drawn(diagrams, function)
    assert stands_for(diagrams, diagram, function.__getitem__)
    assert diagrams.results(diagram) == sum(1 << result for result in set(function.values()))
    assert diagrams.levels(diagram) == tuple(level for level in WIDTHS if depends_on(function, level))
    walk = DiagramTraversal(diagrams, diagram)
    assert all(follow(walk, dict(enumerate(point))) == function[point] for point in POINTS)


@given(functions, functions)
def test_equal_functions_are_one_diagram(one: Function, other: Function) -> None:
    """Canonical, as Bryant 1986 proves for two-valued variables."""
    diagrams = Diagrams()
    assert (drawn(diagrams, one) == drawn(diagrams, other)) == (one == other)
    assert len(set(zip(diagrams.level, diagrams.kids, strict=True))) == len(diagrams.kids)
    assert all(len(set(kids)) > 1 for kids in diagrams.kids), "no node asks what makes no difference"


@given(sets, sets)
def test_sets_are_joined_point_by_point(one: Function, other: Function) -> None:
    diagrams, budget = Diagrams(), Budget(10_000)
    a, b = drawn(diagrams, one), drawn(diagrams, other)
    assert stands_for(diagrams, diagrams.both(a, b, budget), lambda p: one[p] and other[p])
    assert stands_for(diagrams, diagrams.either(a, b, budget), lambda p: one[p] or other[p])
    assert stands_for(diagrams, diagrams.without(a, b, budget), lambda p: int(one[p] > other[p]))
    assert diagrams.both(a, b, budget) == diagrams.both(b, a, budget)
    assert diagrams.both(a, a, budget) == diagrams.either(a, a, budget) == a
    assert diagrams.both(a, NO, budget) == diagrams.without(a, a, budget) == NO
    assert diagrams.either(a, YES, budget) == YES


@given(functions, st.integers(0, 7))
def test_those_with_some_results(function: Function, wanted: int) -> None:
    diagrams = Diagrams()
    those = diagrams.those(drawn(diagrams, function), wanted, Budget(10_000))
    assert stands_for(diagrams, those, lambda point: wanted >> function[point] & 1)


@given(functions, st.sampled_from(list(WIDTHS)), st.data())
def test_a_limited_diagram_is_the_same_where_it_can_arise(
    function: Function, level: int, data: st.DataObject
) -> None:
    """Elsewhere it is what it is at the first cell that can arise: so of one cell alone nothing is asked."""
    diagrams = Diagrams()
    diagram = drawn(diagrams, function)
    cells = data.draw(st.integers(1, (1 << WIDTHS[level]) - 1))
    first = (cells & -cells).bit_length() - 1
    limited = diagrams.limited(diagram, level, cells)

    def instead(point: tuple[int, ...]) -> int:
        spare = (*point[:level], first, *point[level + 1 :])
        return function[point] if cells >> point[level] & 1 else function[spare]

    assert stands_for(diagrams, limited, instead)
    if cells.bit_count() == 1:
        assert level not in diagrams.levels(limited)


@given(st.dictionaries(st.sampled_from(list(WIDTHS)), st.integers(0, 7)))
def test_a_box(box: dict[int, int]) -> None:
    diagrams = Diagrams()

    def within(point: tuple[int, ...]) -> int:
        return int(all(cells >> point[level] & 1 for level, cells in box.items()))

    assert stands_for(diagrams, diagrams.box(box, WIDTHS), within)


def test_every_node_that_is_looked_at_costs_a_step() -> None:
    diagrams = Diagrams()
    chain = diagrams.node(0, (diagrams.node(1, (diagrams.node(2, (NO, YES)), YES, NO)), NO))
    other = diagrams.node(0, (NO, diagrams.node(1, (YES, NO, NO))))
    deeper = diagrams.node(1, (YES, NO, YES))
    for work, steps in [
        (lambda budget: diagrams.renamed(chain, lambda result: 1 - result, budget), 3),
        (lambda budget: diagrams.those(chain, 2, budget), 3),
        (lambda budget: diagrams.both(chain, other, budget), 1),
        (lambda budget: diagrams.both(chain, deeper, budget), 2),
        (lambda budget: diagrams.either(chain, deeper, budget), 2),
        (lambda budget: diagrams.without(chain, other, budget), 2 + 1),
    ]:
        budget = Budget(100)
        work(budget)
        assert 100 - budget.left == steps
        with pytest.raises(Unfinished):
            work(Budget(steps - 1))
    budget = Budget(0)
    assert diagrams.both(chain, chain, budget) == diagrams.either(chain, NO, budget) == chain


def test_a_budget_is_spent_to_its_end_and_not_beyond() -> None:
    budget = Budget(3)
    budget.spend()
    budget.spend(2)
    assert budget.left == 0
    with pytest.raises(Unfinished):
        budget.spend()


def test_each_state_of_matching_costs_a_step() -> None:
    boxes = [{0: 0b01, 1: 0b001}, {1: 0b010}]
    matching(Diagrams(), boxes, WIDTHS, {}, "first", Budget(3))
    with pytest.raises(Unfinished):
        matching(Diagrams(), boxes, WIDTHS, {}, "first", Budget(2))
