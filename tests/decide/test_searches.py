"""What is asked of a space for one table or one client, by trying everyone."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.course import AnyOf, Caution, Is
from builder.decide import evaluate
from builder.decide.budget import Budget, Unfinished
from builder.decide.diagram import Diagrams
from builder.decide.found import find
from builder.decide.product_search import Factor, ProductSearch
from builder.decide.searches import deciding, meeting, someone
from builder.decide.space import Space
from builder.decide.traversal import DiagramTraversal, follow

from .courses import band, choice, course, number, table, yes_no
from .large import Size, layered
from .referee import everyone, random_course, try_everyone
from .test_nearest import as_readings


@settings(max_examples=80)
@given(st.integers(0, 2**40))
def test_one_client_is_followed_to_what_is_decided(seed: int) -> None:
    made = random_course(Random(seed), aged=seed % 4 == 0)
    truth = try_everyone(made)
    space = Space(made)
    for client in list(everyone(made))[:20]:
        cells = dict(enumerate(space.cells(dict(zip(made.measures, client, strict=True)))))
        for name in made.tables:
            outcomes = list(made.tables[name].outcomes)
            result = follow(deciding(space, name), cells)
            assert (outcomes[result] if result < len(outcomes) else None) == truth.outcomes[client].get(name)
        found = find(made, as_readings(made, client))
        met = {caution.name for caution in evaluate.met(made, found)}
        assert {name for name in made.cautions if follow(meeting(space, name), cells)} == met


def made_space() -> Space:
    first = table(
        "first",
        "first",
        "a p",
        ("low", {"a": band(below=5)}, "x"),
        ("p", {"p": Is(True)}, "y"),
        ("r", {}, "z"),
    )
    then = table("then", "first", "first c", ("x", {"first": AnyOf(("x",))}, "q"), ("r", {}, "s"))
    return Space(course(number("a", 0, 9), yes_no("p"), choice("c", "v", "w"), first, then))


def test_someone_in_a_box_is_in_it_and_nobody_is_found_where_nobody_is() -> None:
    space = made_space()
    a, p, c, first = (space.levels["a"], space.levels["p"], space.levels["c"], space.slots["first"])
    assert sorted((a, p, c)) == [0, 1, 2]
    assert someone(space, "then", {first: 0b010}, Budget(1000)) == {"a": 7, "p": 1, "c": 0}
    assert someone(space, "then", {first: 0b001, c: 1}, Budget(1000)) == {"a": 2, "p": 0, "c": 0}
    assert someone(space, "first", {a: 0b10}, Budget(1000)) == {"a": 7, "p": 0, "c": 0}
    assert someone(space, "then", {first: 0b110, a: 0b01}, Budget(1000)) is None
    assert someone(space, "then", {first: 0}, Budget(1000)) is None
    assert someone(space, "then", {c: 0}, Budget(1000)) is None
    found = someone(space, "then", {}, Budget(1000))
    assert found is not None


def test_values_as_a_box() -> None:
    space = made_space()
    box = space.box_of_values({"a": [4, 5], "p": [True], "first": ["x", "z"]})  # type: ignore[list-item]
    assert box == {space.levels["a"]: 0b11, space.levels["p"]: 0b10, space.slots["first"]: 0b101}
    assert space.measures_in(box) == {space.levels["a"]: 0b11, space.levels["p"]: 0b10}
    assert space.outcomes_in("then", box) == {"first": 0b101}
    assert space.outcomes_in("then", {}) == {"first": 0b111}
    assert space.outcomes_in("first", {}) == {}
    assert space.box({"first": AnyOf(("y", "z")), "a": band(below=5)}) == {
        space.slots["first"]: 0b110,
        space.levels["a"]: 0b01,
    }
    assert (space.feeds("then"), space.feeds("first")) == (("first",), ())
    assert (space.read_by("then"), space.read_by("first")) == ({"a", "p", "c"}, {"a", "p"})


def test_a_client_stands_in_the_middle_of_a_cell_and_of_what_is_free() -> None:
    space = made_space()
    assert space.client({}) == {"a": 4, "p": 0, "c": 0}
    assert space.client({space.levels["a"]: 1, space.levels["p"]: 1}) == {"a": 7, "p": 1, "c": 0}
    assert space.client({space.levels["a"]: 0}) == {"a": 2, "p": 0, "c": 0}
    assert [space.cells({"a": at, "p": 1, "c": 1})[space.levels["a"]] for at in (0, 4, 5, 9)] == [0, 0, 1, 1]


def test_a_table_over_its_own_inputs() -> None:
    space = made_space()
    local = space.local("then")
    assert (local.gap, local.overlap, local.not_reached) == (2, 3, 4)
    cells = [0] * (max(space.slots.values()) + 1)
    for outcome, rule, then in ((0, 0, 0), (1, 1, 1), (2, 1, 1), (3, local.not_reached, 2)):
        cells[space.slots["first"]] = outcome
        assert space.diagrams.at(local.rules, cells) == rule
        assert space.diagrams.at(local.outcomes, cells) == then
    both = table("t", "unique", "a", ("low", {"a": band(below=5)}, "x"), ("lower", {"a": band(below=3)}, "y"))
    space = Space(course(number("a", 0, 9), both))
    local = space.local("t")
    assert [space.diagrams.at(local.rules, [cell]) for cell in range(3)] == [local.overlap, 0, local.gap]
    assert [space.diagrams.at(local.outcomes, [cell]) for cell in range(3)] == [2, 0, 2]


def test_the_diagram_of_a_table_may_take_an_eighth_of_the_work_for_a_proof() -> None:
    """Each table takes two steps; eight times as much is allowed for the larger one."""
    made = made_space().course
    for name in ("first", "then"):
        assert Space(made, 16).outcome(name) == Space(made, 16).larger_outcome(name) >= 0
        with pytest.raises(Unfinished):
            Space(made, 15).outcome(name)
        assert Space(made, 15).larger_outcome(name) >= 0


def test_for_one_client_eight_times_as_much_work_is_allowed_and_then_a_search_stands_in() -> None:
    made = layered(Random(0), Size(measures=10, cells=4, tables=2, rules=10, inputs=6))
    with pytest.raises(Unfinished):
        Space(made, 256).outcome("t1")
    assert isinstance(deciding(Space(made, 256), "t1"), DiagramTraversal)
    with pytest.raises(Unfinished):
        deciding(Space(made, 64), "t1")

    class Cramped(Space):
        """Has no room for the diagram of a table over all clients."""

        def outcome(self, table: str) -> int:
            raise Unfinished

        larger_outcome = outcome

    cells = dict.fromkeys(range(len(Space(made).measures)), 0)
    walk = deciding(Cramped(made), "t1")
    assert isinstance(walk, ProductSearch)
    assert follow(walk, cells) == follow(deciding(Space(made), "t1"), cells)


def test_a_caution_with_no_set_of_conditions_is_never_met_and_an_empty_set_always() -> None:
    made = course(
        yes_no("p"), Caution("never", "N", "refer", (), ""), Caution("all", "A", "refer", ({},), "")
    )
    space = Space(made)
    assert (space.caution("never"), space.caution("all")) == (~0, ~1)


def test_the_first_of_all_diagrams_is_searched_like_any_other() -> None:
    diagrams = Diagrams()
    fed = diagrams.node(1, (~0, ~1))
    feed = diagrams.node(0, (~1, ~0))
    assert fed == 0
    parts = [Factor(feed, slot=1), Factor(fed)]
    assert ProductSearch(diagrams, parts, Budget(9)).composed() == feed
    assert ProductSearch(diagrams, [*parts[:1], Factor(fed, wanted=2), Factor(~1)], Budget(9)).first(2) == {
        1: {0: 0}
    }
    assert ProductSearch(diagrams, parts[1:], Budget(9)).first(3) == {0: {1: 0}, 1: {1: 1}}


@pytest.mark.parametrize(("measures", "too_deep"), [(200, False), (201, True)])
def test_a_decision_rests_on_200_measures_at_most(measures: int, too_deep: bool) -> None:
    """Diagrams are walked by recursion; a bound of our own."""
    names = [f"m{n}" for n in range(measures)]
    all_of_them = {name: Is(True) for name in names}
    made = course(
        *map(yes_no, names),
        table("t", "first", " ".join(names), ("all", all_of_them, "x"), ("rest", {}, "y")),
        Caution("k", "K", "refer", (all_of_them,), ""),
    )
    space = Space(made)
    for work in (lambda: space.local("t"), lambda: space.caution("k")):
        if too_deep:
            with pytest.raises(Unfinished):
                work()
        else:
            work()


def test_a_caution_on_what_has_no_domain_or_is_not_there_is_left_out() -> None:
    upside_down = number("z", 9, 0)
    made = course(
        upside_down, yes_no("p"),
        Caution("a", "A", "refer", ({"z": band(below=3)},), ""),
        Caution("b", "B", "refer", ({"p": band(below=3)},), ""),
        Caution("c", "C", "refer", ({"gone": Is(True)},), ""),
        Caution("d", "D", "refer", ({"p": Is(True)}, {"z": band(below=3)}), ""),
        Caution("e", "E", "refer", ({"p": Is(True)},), ""),
    )  # fmt: skip
    assert list(Space(made).cautions) == ["e"]


def test_without_room_for_diagrams_what_feeds_a_table_is_searched_too() -> None:
    class Cramped(Space):
        def outcome(self, table: str) -> int:
            raise Unfinished

    first = table("first", "first", "a", ("high", {"a": band(at_least=8)}, "x"), ("r", {}, "y"))
    then = table("then", "first", "first", ("x", {"first": AnyOf(("x",))}, "q"), ("r", {}, "s"))
    last = table("last", "first", "then first", ("all", {}, "end"))
    space = Cramped(course(number("a", 0, 9), first, then, last))
    assert someone(space, "last", {space.slots["then"]: 0b01}, Budget(1000)) == {"a": 8}
    assert someone(space, "last", {space.slots["then"]: 0b10}, Budget(1000)) == {"a": 3}
    both = {space.slots["then"]: 0b01, space.slots["first"]: 0b10}
    assert someone(space, "last", both, Budget(1000)) is None
