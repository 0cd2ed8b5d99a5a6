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
