"""Draws of a quiz from the bank: the laws, on banks made by chance."""

from __future__ import annotations

from collections import Counter
from itertools import combinations
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from builder.answers import Answers
from builder.course import BlueprintRow, Quiz
from builder.questions import Item, draw_quiz, quiz_pool
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
        made.append(Item(name, "one", objective, "?", "a", case=client, family=family, marked=marked))
    return tuple(made)


blueprints = st.lists(
    st.builds(BlueprintRow, st.sampled_from(["o1", "o2"]), st.integers(0, 3)), min_size=1, max_size=2,
    unique_by=lambda row: row.objective,
)  # fmt: skip


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


@given(items(), blueprints, st.integers(0, 50))
def test_no_client_comes_twice_where_that_can_be_avoided(
    made: tuple[Item, ...], rows: list[BlueprintRow], seed: int
) -> None:
    def repeats(chosen: tuple[Item, ...]) -> int:
        clients = [item.case for item in chosen if item.case]
        return len(clients) - len(set(clients))

    drawn = draw_quiz(quiz(rows), made, seed)
    wanted = Counter(item.objective for item in drawn)
    possible = [
        chosen
        for chosen in combinations([item for item in made if item.marked], len(drawn))
        if Counter(item.objective for item in chosen) == wanted
    ]
    assert repeats(drawn) == min(map(repeats, possible))


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
