"""Trees of questions against the tables that they stand for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import product
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.course import AnyOf, Course, Is, Outcome, Table
from builder.decide.budget import Unfinished
from builder.decide.evaluate import decide_table
from builder.decide.grid import Value, size, value
from builder.decide.lines import DrawnLine, drawn_lines, midway
from builder.decide.space import Space
from builder.decide.tree import Fork, Leaf, Tree, Way, leaves, tree_of

from .courses import band, choice, course, number, table, takes, yes_no
from .large import Size, layered
from .referee import everyone, random_course, try_everyone, values

ANGLE = number("angle", 0, 9)


def followed(tree: Tree, found: Mapping[str, Value]) -> str | None:
    while isinstance(tree, Fork):
        (way,) = [one for one in tree.ways if takes(one, found[tree.input])]
        tree = way.to
    return tree.outcome


def forks(tree: Tree) -> Iterator[Fork]:
    if isinstance(tree, Fork):
        yield tree
        for way in tree.ways:
            yield from forks(way.to)


def inputs(made: Course, one: Table) -> Iterator[dict[str, Value]]:
    """Every combination of what a table can be given."""
    domains: list[list[Value]] = [
        [value(made.measures[name], at) for at in range(size(made.measures[name]))]
        if name in made.measures
        else list(made.tables[name].outcomes)
        for name in one.inputs
    ]
    for found in product(*domains):
        yield dict(zip(one.inputs, found, strict=True))


@settings(max_examples=100)
@given(st.integers(0, 2**40))
def test_a_tree_leads_where_its_table_does(seed: int) -> None:
    made = random_course(Random(seed), clients=60, aged=seed % 4 == 0)
    for one in made.tables.values():
        sound = replace(one, policy="first")
        tree = tree_of(made, sound)
        for found in inputs(made, sound):
            assert followed(tree, found) == decide_table(sound, found).outcome
        for fork in forks(tree):
            assert len(fork.ways) > 1, "nothing is asked that leads to one place"
            if fork.input in made.measures and not isinstance(fork.ways[0].values[0], str | bool):
                assert all(a.to != b.to for a, b in zip(fork.ways, fork.ways[1:], strict=False))
            else:
                assert len({way.values for way in fork.ways}) == len(fork.ways)
                assert all(a.to != b.to for n, a in enumerate(fork.ways) for b in fork.ways[n + 1 :])


@settings(max_examples=80)
@given(st.integers(0, 2**40))
def test_a_pruned_tree_leads_everybody_where_the_whole_one_does(seed: int) -> None:
    made = random_course(Random(seed), clients=60, aged=seed % 4 == 0)
    made = replace(made, tables={name: replace(one, policy="first") for name, one in made.tables.items()})
    truth = try_everyone(made)
    space = Space(made)
    for name, one in made.tables.items():
        whole, pruned = tree_of(made, one), tree_of(made, one, space)
        assert leaves(pruned) <= leaves(whole)
        for client in everyone(made):
            found = dict(zip(made.measures, values(made, client), strict=True)) | truth.outcomes[client]
            if all(name in found for name in one.inputs):
                assert followed(pruned, found) == followed(whole, found)


def test_what_nobody_reaches_is_left_out() -> None:
    first = table("first", "first", "angle", ("low", {"angle": band(below=5)}, "x"), ("rest", {}, "y"))
    then = table(
        "then", "first", "first angle",
        ("x", {"first": AnyOf(("x",)), "angle": band(below=3)}, "p"),
        ("high", {"angle": band(at_least=5)}, "q"),
        ("rest", {}, "r"),
    )  # fmt: skip
    made = course(ANGLE, first, then)
    whole, pruned = tree_of(made, then), tree_of(made, then, Space(made))
    assert (leaves(whole), leaves(pruned)) == (5, 3)
    assert isinstance(pruned, Fork)
    # Low angles always come to x; of y nobody is below 5.
    assert [(way.values, way.to) for way in pruned.ways] == [
        (("x",), Fork("angle", (
            Way((F(0), F(2)), Leaf("p"), DrawnLine(3, F(3), True)),
            Way((F(3), F(9)), Leaf("r"), DrawnLine(3, F(3), True)),
        ))),
        (("y",), Leaf("q")),
    ]  # fmt: skip


F = Fraction


def test_numbers_that_nobody_has_go_to_the_way_beside_them() -> None:
    """Whoever comes to y has 5 or more, and the ways still part only where a rule draws a line."""
    first = table("first", "first", "angle", ("low", {"angle": band(below=5)}, "x"), ("rest", {}, "y"))
    then = table(
        "then", "first", "first angle",
        ("x", {"first": AnyOf(("x",))}, "p"),
        ("none", {"angle": band(below=2)}, "n"),
        ("nobody", {"angle": band(below=4)}, "o"),
        ("some", {"angle": band(below=7)}, "q"),
        ("rest", {}, "r"),
    )  # fmt: skip
    made = course(ANGLE, first, then)
    pruned = tree_of(made, then, Space(made))
    assert isinstance(pruned, Fork)
    assert pruned.ways[1].to == Fork("angle", (
        Way((F(0), F(6)), Leaf("q"), DrawnLine(7, F(7), True)),
        Way((F(7), F(9)), Leaf("r"), DrawnLine(7, F(7), True)),
    ))  # fmt: skip


def test_leaving_out_takes_an_eighth_of_the_work_for_a_proof_at_most() -> None:
    made = layered(Random(0), Size(measures=10, cells=4, tables=2, rules=10, inputs=6))
    later = made.tables["t1"]
    enough = 8 * 758
    assert leaves(tree_of(made, later)) >= leaves(tree_of(made, later, Space(made, enough))) == 98
    with pytest.raises(Unfinished):
        tree_of(made, later, Space(made, enough - 1))


@pytest.mark.parametrize(("cut", "above"), [("5.5", 6), ("8.5", 9)])
def test_a_number_with_runs_and_the_lines_at_its_ends(cut: str, above: int) -> None:
    one = table(
        "t", "first", "angle",
        ("low", {"angle": band(below=3)}, "x"),
        ("mid", {"angle": band(at_most=cut)}, "y"),
        ("rest", {}, "x"),
    )  # fmt: skip
    assert tree_of(course(ANGLE, one), one) == Fork(
        "angle",
        (
            Way((F(0), F(2)), Leaf("x"), DrawnLine(3, F(3), True)),
            Way((F(3), F(above - 1)), Leaf("y")),
            Way((F(above), F(9)), Leaf("x"), DrawnLine(above, F(cut), False)),
        ),
    )


def test_an_uneven_grid_ends_at_its_last_step() -> None:
    uneven = number("angle", 1, 10, 2)
    one = table("t", "first", "angle", ("low", {"angle": band(below=6)}, "x"), ("rest", {}, "y"))
    assert tree_of(course(uneven, one), one) == Fork(
        "angle",
        (
            Way((F(1), F(5)), Leaf("x"), DrawnLine(3, F(6), True)),
            Way((F(7), F(9)), Leaf("y"), DrawnLine(3, F(6), True)),
        ),
    )


def test_findings_that_lead_alike_are_one_way() -> None:
    one = table(
        "t", "first", "c p", ("b", {"c": AnyOf(("b",))}, "x"), ("p", {"p": Is(True)}, "y"), ("r", {}, "z")
    )
    made = course(choice("c", "a", "b", "d"), yes_no("p"), one)
    asks = Fork("p", (Way((False,), Leaf("z")), Way((True,), Leaf("y"))))
    assert tree_of(made, one) == Fork("c", (Way(("a", "d"), asks), Way(("b",), Leaf("x"))))
    assert leaves(tree_of(made, one)) == 3


def test_a_table_that_asks_nothing_is_a_leaf_and_one_that_forgets_somebody_says_so() -> None:
    every = table("t", "first", "angle", ("all", {}, "x"), ("low", {"angle": band(below=3)}, "y"))
    assert tree_of(course(ANGLE, every), every) == Leaf("x")
    holed = table("t", "unique", "angle", ("low", {"angle": band(below=3)}, "x"))
    assert [way.to for way in forks_of(course(ANGLE, holed), holed).ways] == [Leaf("x"), Leaf(None)]
    unknown = replace(holed, inputs=("gone",), rules=())
    assert tree_of(course(ANGLE, unknown), unknown) == Leaf(None)


def forks_of(made: Course, one: Table) -> Fork:
    tree = tree_of(made, one)
    assert isinstance(tree, Fork)
    return tree


def test_outcomes_of_an_earlier_table_are_asked_in_their_order() -> None:
    first = replace(
        table("first", "first", "p", ("y", {"p": Is(True)}, "b"), ("n", {}, "a")),
        outcomes={name: Outcome(name, name) for name in "cab"},
    )
    then = table("then", "first", "first", *((name, {"first": AnyOf((name,))}, name) for name in "abc"))
    made = course(yes_no("p"), first, then)
    assert [way.values for way in forks_of(made, then).ways] == [("c",), ("a",), ("b",)]
    pruned = tree_of(made, then, Space(made))
    assert isinstance(pruned, Fork)
    assert [way.values for way in pruned.ways] == [("a",), ("b",)], "nobody comes to c"


@pytest.mark.parametrize(
    ("bound", "cut", "above", "on_it"),
    [
        ("at_least", 3, 3, True), ("below", 3, 3, True), ("above", 3, 4, False), ("at_most", 3, 4, False),
        ("at_least", "2.5", 3, True), ("below", "2.5", 3, True),
        ("above", "2.5", 3, False), ("at_most", "2.5", 3, False),
    ],
)  # fmt: skip
def test_a_line_lies_between_two_steps(bound: str, cut: object, above: int, on_it: bool) -> None:
    scale = number("a", 1, 9).scale
    shifted = F(str(cut)) + 1
    (line,) = drawn_lines(scale, [band(**{bound: shifted})])  # type: ignore[arg-type]
    assert line == DrawnLine(above, shifted, on_it)
    assert midway(scale, above) == 1 + above - F(1, 2)  # type: ignore[arg-type]


def test_only_bands_draw_lines_each_bound_its_own() -> None:
    scale = number("a", 0, 9).scale
    told = [band(at_least=1, below=4), Is(True), AnyOf(("x",)), band(above=4)]
    assert [line.above for line in drawn_lines(scale, told)] == [1, 4, 5]  # type: ignore[arg-type]
