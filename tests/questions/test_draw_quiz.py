"""Draws of a quiz from the bank: the laws, on banks made by chance."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.answers import Answers
from builder.course import BlueprintRow, MustInclude, Quiz
from builder.questions import Item, draw_data, draw_quiz, quiz_pool
from builder.questions.draw import drawn as drawn_numbers
from builder.questions.draw import included
from builder.questions.pcg import Pcg32
from builder.source import load

ANKLE = load(Path(__file__).parents[1] / "courses" / "ankle").course


@st.composite
def items(draw: st.DrawFn) -> tuple[Item, ...]:
    made = []
    for number in range(draw(st.integers(0, 7))):
        objective = draw(st.sampled_from(["o1", "o2"]))
        client = draw(st.sampled_from([None, "wren", "robin", "tit"]))
        family = "g" if client else None
        name = f"{family}.{number}" if family else f"q{number}"
        marked = draw(st.sampled_from([True, True, True, False]))
        sends = draw(st.sampled_from([None, "stopped", "referred"])) if client else None
        made.append(
            Item(name, "one", objective, "?", "a", case=client, family=family, marked=marked, sends=sends)
        )
    return tuple(made)


blueprints = st.lists(
    st.builds(BlueprintRow, st.sampled_from(["o1", "o2"]), st.integers(0, 3)), min_size=1, max_size=2,
    unique_by=lambda row: row.objective,
)  # fmt: skip


musts = st.lists(
    st.one_of(
        st.builds(MustInclude, st.integers(1, 2), st.sampled_from(["o1", "o2"])),
        st.builds(MustInclude, st.integers(1, 2), clients=st.sampled_from(["stopped", "referred"])),
    ),
    max_size=3,
)


def quiz(rows: list[BlueprintRow]) -> Quiz:
    return Quiz("q", "Q", blueprint=tuple(rows))


@given(items(), blueprints, st.integers(0, 2**53 - 1))
def test_a_draw_fills_the_blueprint_as_far_as_the_bank_goes(
    made: tuple[Item, ...], rows: list[BlueprintRow], seed: int
) -> None:
    drawn = draw_quiz(quiz(rows), made, seed)
    assert len({item.id for item in drawn}) == len(drawn)
    assert all(item.marked for item in drawn)
    there = Counter(item.objective for item in made if item.marked)
    found = Counter(item.objective for item in drawn)
    assert found == Counter({row.objective: min(row.count, there[row.objective]) for row in rows}) + Counter()


@given(items(), blueprints, musts, st.integers(0, 50))
def test_no_client_comes_twice_where_that_can_be_avoided(
    made: tuple[Item, ...], rows: list[BlueprintRow], must: list[MustInclude], seed: int
) -> None:
    """Besides what must be there."""

    def repeats(chosen: tuple[Item, ...]) -> int:
        clients = [item.case for item in chosen if item.case]
        return len(clients) - len(set(clients))

    asked = replace(quiz(rows), must_include=tuple(must))
    drawn = draw_quiz(asked, made, seed)
    needed = {item.id for item in needed_of(asked, made, seed)}
    possible = [one for one in alternatives(made, drawn) if needed <= {item.id for item in one}]
    assert repeats(drawn) == min(map(repeats, possible))


def alternatives(made: tuple[Item, ...], drawn: tuple[Item, ...]) -> list[tuple[Item, ...]]:
    """All choices from a bank with as many of each objective as were drawn."""
    wanted = Counter(item.objective for item in drawn)
    marked = [item for item in made if item.marked]
    return [c for c in combinations(marked, len(drawn)) if Counter(item.objective for item in c) == wanted]


def needed_of(asked: Quiz, made: tuple[Item, ...], seed: int) -> list[Item]:
    """What must be there, as it is chosen before all else."""
    data, pool = draw_data(asked, made), quiz_pool(asked, made)
    return [pool[number] for number in included(data, Pcg32(seed).shuffled(range(len(pool))))]


def most_filled(musts: list[MustInclude], chosen: Sequence[Item]) -> int:
    """How many of what must be there can each have an item of their own among these, by trying all."""
    slots = [must for must in musts for _ in range(must.count)]

    def filled(at: int, left: tuple[Item, ...]) -> int:
        if at == len(slots):
            return 0
        serving = [one for one in left if serves(slots[at], one)]
        with_it = (1 + filled(at + 1, tuple(two for two in left if two is not one)) for one in serving)
        return max((filled(at + 1, left), *with_it))

    return filled(0, tuple(chosen))


def serves(must: MustInclude, item: Item) -> bool:
    return item.objective == must.objective if must.objective else item.sends == must.clients


@given(items(), blueprints, musts, st.integers(0, 50))
def test_a_draw_holds_as_much_of_what_it_must_as_any_can(
    made: tuple[Item, ...], rows: list[BlueprintRow], must: list[MustInclude], seed: int
) -> None:
    asked = replace(quiz(rows), must_include=tuple(must))
    drawn, plain = draw_quiz(asked, made, seed), draw_quiz(quiz(rows), made, seed)
    assert Counter(item.objective for item in drawn) == Counter(item.objective for item in plain)
    assert len({item.id for item in drawn}) == len(drawn)
    most = max(most_filled(must, chosen) for chosen in alternatives(made, drawn))
    needed = needed_of(asked, made, seed)
    assert most_filled(must, drawn) == most_filled(must, needed) == len(needed) == most


@given(items(), blueprints, musts, st.integers(0, 50))
def test_no_place_tells_what_had_to_be_there(
    made: tuple[Item, ...], rows: list[BlueprintRow], must: list[MustInclude], seed: int
) -> None:
    """What is drawn of an objective comes in the order in which chance has put the whole bank."""
    asked = replace(quiz(rows), must_include=(MustInclude(1, "o3"), *must))
    data = draw_data(asked, made)
    numbers = drawn_numbers(data, seed)
    order = Pcg32(seed).shuffled(range(len(data["pool"])))
    for pool in set(data["pool"]):
        places = [order.index(number) for number in numbers if data["pool"][number] == pool]
        assert places == sorted(places)
    assert [data["pool"][number] for number in numbers] == sorted(data["pool"][number] for number in numbers)


@pytest.mark.parametrize("seed", range(30))
def test_what_must_be_there_is_about_different_clients_where_it_can_be(seed: int) -> None:
    made = tuple(
        Item(f"{case}.{n}", "one", "o", "?", "a", case=case, sends="stopped")
        for case in ("wren", "robin", "tit") for n in range(3)
    )  # fmt: skip
    for count in (1, 2, 3):
        asked = replace(quiz([BlueprintRow("o", 5)]), must_include=(MustInclude(count, clients="stopped"),))
        data = draw_data(asked, made)
        there = included(data, Pcg32(seed).shuffled(range(9)))
        assert len({data["client"][number] for number in there}) == len(there) == count
        clients = Counter(item.case for item in draw_quiz(asked, made, seed))
        assert len(clients) == 3


def test_seeds_draw_different_quizzes_and_the_same_seed_the_same() -> None:
    made = tuple(Item(f"q{n}", "one", "o1", "?", "a") for n in range(40))
    asked = quiz([BlueprintRow("o1", 10)])
    draws = [tuple(item.id for item in draw_quiz(asked, made, seed)) for seed in range(1, 81)]
    assert len(set(draws)) == 80
    assert draws[0] == tuple(item.id for item in draw_quiz(asked, made))
    assert {name for one in draws for name in one} == {item.id for item in made}


def test_a_list_asks_its_questions_in_order_and_one_client_of_a_family() -> None:
    made = Answers(ANKLE).bank
    drawn = draw_quiz(ANKLE.quizzes["all-kinds"], made)
    assert [item.id for item in drawn][:5] == ["q-one", "q-several", "q-number", "q-order", "q-pairs"]
    assert [item.family for item in drawn][5:] == ["g-plan"]


def test_the_pool_holds_everything_that_some_draw_can_hold() -> None:
    made = Answers(ANKLE).bank
    pool = {item.id for item in quiz_pool(ANKLE.quizzes["all-kinds"], made)}
    seen = {item.id for seed in range(60) for item in draw_quiz(ANKLE.quizzes["all-kinds"], made, seed)}
    assert seen == pool


# rows that name more than an objective


@st.composite
def sorted_items(draw: st.DrawFn) -> tuple[Item, ...]:
    """Items of two objectives, levels, kinds and sorts of family."""
    made = []
    for number in range(draw(st.integers(0, 12))):
        sort, kind = draw(
            st.sampled_from([(None, "number"), (None, "one"), ("line", "one"), ("decision", "one")])
        )
        objective = draw(st.sampled_from(["o1", "o2"]))
        level = {"o1": "apply", "o2": "remember"}[objective]
        client = draw(st.sampled_from(["wren", "robin"])) if sort else None
        name = f"g-{sort}.{number}" if sort else f"q{number}"
        family = f"g-{sort}" if sort else None
        made.append(Item(name, kind, objective, "?", "a", case=client, family=family, sort=sort, level=level))  # type: ignore[arg-type]
    return tuple(made)


any_rows = st.lists(
    st.builds(
        BlueprintRow,
        st.sampled_from([None, "o1", "o2"]),
        st.integers(1, 3),
        st.sampled_from([None, "apply", "remember"]),
        st.sampled_from([None, "one", "number"]),
        st.sampled_from([None, None, "line", "decision"]),
    ).filter(lambda row: any(row.asks)),
    min_size=1, max_size=4, unique_by=lambda row: row.asks,
)  # fmt: skip


def fits(row: BlueprintRow, item: Item) -> bool:
    return (
        row.objective in (None, item.objective)
        and row.level in (None, item.level)
        and row.kind in (None, item.kind)
        and row.family in (None, item.sort)
    )


@given(sorted_items(), any_rows, st.integers(0, 1000))
def test_a_row_asks_what_fits_it_and_no_earlier_row(
    made: tuple[Item, ...], rows: list[BlueprintRow], seed: int
) -> None:
    homes: dict[int, list[str]] = {number: [] for number in range(len(rows))}
    for item in made:
        home = next((number for number, row in enumerate(rows) if fits(row, item)), None)
        if home is not None:
            homes[home].append(item.id)
    drawn = [item.id for item in draw_quiz(quiz(rows), made, seed)]
    counts = [min(row.count, len(homes[number])) for number, row in enumerate(rows)]
    assert len(drawn) == len(set(drawn)) == sum(counts)
    at = 0
    for number, count in enumerate(counts):
        assert set(drawn[at : at + count]) <= set(homes[number])
        at += count


@given(sorted_items(), any_rows, musts, st.data(), st.integers(0, 1000))
def test_what_never_comes_together_never_does(
    made: tuple[Item, ...], rows: list[BlueprintRow], must: list[MustInclude], data: st.DataObject, seed: int
) -> None:
    names = sorted({item.family or item.id for item in made})
    groups = data.draw(
        st.lists(st.lists(st.sampled_from(names), min_size=2, max_size=3, unique=True), max_size=2)
        if len(names) > 1
        else st.just([])
    )
    asked = replace(quiz(rows), must_include=tuple(must), never_with=tuple(map(tuple, groups)))
    drawn = draw_quiz(asked, made, seed)
    there = {item.family or item.id for item in drawn}
    assert all(len(there.intersection(group)) <= 1 for group in groups)
    if not groups:
        assert drawn == draw_quiz(replace(asked, never_with=()), made, seed)


def test_each_of_a_group_comes_in_some_draw() -> None:
    made = tuple(Item(f"q{n}", "one", "o1", "?", "a") for n in range(5))
    asked = replace(quiz([BlueprintRow("o1", 3)]), never_with=(("q0", "q1", "q2"),))
    draws = [{item.id for item in draw_quiz(asked, made, seed)} for seed in range(40)]
    assert set().union(*draws) == {item.id for item in made}
    assert all(len(one) == 3 and len(one & {"q0", "q1", "q2"}) == 1 for one in draws)


def test_the_bank_places_questions_by_the_level_of_their_objective_and_the_sort_of_family() -> None:
    made = {item.id: item for item in Answers(ANKLE).bank}
    levels = {name: one.level for name, one in ANKLE.objectives.items()}
    assert all(item.level == levels[item.objective] for item in made.values())
    assert {item.sort for item in made.values() if item.family == "g-plan"} == {"decision"}
    assert made["q-one"].sort is None
