"""The tables of cases, the laws of marking, and published values, on the Python side."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import combinations, permutations
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import maximum_flow
from scipy.stats import kendalltau

from builder.exercises import follow, walk_data
from builder.questions import item_data
from builder.questions.draw import apart, drawn
from builder.questions.marking import harm_of, is_held, mark, mark_quiz
from builder.questions.numbers import read_number
from builder.questions.pcg import Pcg32

from .tables import draw_data, item, read, told, walk

CASES = read("cases.json")
WALKS = read("walk_cases.json")
DRAWS = read("draw_cases.json")


@pytest.mark.parametrize("case", CASES["numbers"], ids=lambda case: repr(case["text"]))
def test_number_as_typed(case: dict[str, Any]) -> None:
    assert read_number(case["text"]) == (Fraction(*case["value"]) if case["value"] else None)


@pytest.mark.parametrize("case", CASES["items"], ids=lambda case: case["name"])
def test_single_question(case: dict[str, Any]) -> None:
    found = mark(item(case), case["answer"])
    assert found == Fraction(*case["mark"])
    assert is_held(found) == (case["mark"] == [1, 1])


@pytest.mark.parametrize("case", CASES["quizzes"], ids=lambda case: case["name"])
def test_quiz(case: dict[str, Any]) -> None:
    marks = [Fraction(*one) for one in case["marks"]]
    found = mark_quiz(marks, Fraction(*case["pass_mark"]), case["serious"])
    assert (found.mark, found.held) == (Fraction(*case["mark"]), case["held"])


@pytest.mark.parametrize("case", WALKS["cases"], ids=lambda case: case["name"])
def test_walk(case: dict[str, Any]) -> None:
    data = WALKS["walks"][case["walk"]]
    if case["result"] is None:
        with pytest.raises(ValueError, match="has no option"):
            follow(walk(data), case["picks"])
        return
    found = follow(walk(data), case["picks"])
    assert told(found, Fraction(*data["pass_mark"])) == case["result"]


@pytest.mark.parametrize("name", WALKS["walks"])
def test_walk_data_has_the_shape_of_the_table(name: str) -> None:
    data = WALKS["walks"][name]
    found = walk_data(walk(data), Fraction(*data["pass_mark"]))
    for step in found["steps"].values():  # what a record takes from a page, and marking does not
        assert bool(step.pop("key_digest")) == bool(step["options"])
    assert found == {**data, "pass_mark": tuple(data["pass_mark"])}


@pytest.mark.parametrize("case", CASES["items"], ids=lambda case: case["name"])
def test_item_data_has_the_shape_of_the_table(case: dict[str, Any]) -> None:
    key = item_data(item(case))["key"]
    assert (key if isinstance(key, str) else [list(k) if isinstance(k, tuple) else k for k in key]) == case[
        "key"
    ]


@pytest.mark.parametrize("case", DRAWS["draws"], ids=lambda case: case["name"])
def test_draw(case: dict[str, Any]) -> None:
    assert drawn(case["data"], case["seed"]) == case["drawn"]


def test_chance_gives_the_published_numbers() -> None:
    # The author's demonstration program of the minimal C implementation, pcg32-demo, round 1 (O'Neill 2014).
    chance = Pcg32(DRAWS["pcg32"]["seed"], DRAWS["pcg32"]["stream"])
    expected = [0xA15C02B7, 0x7B47F409, 0xBA1D3330, 0x83D2F293, 0xBFA4784B, 0xCBED606E]
    assert [chance.next() for _ in range(6)] == DRAWS["pcg32"]["numbers"] == expected


@pytest.mark.parametrize("size", [2, 3, 4, 5, 6])
def test_order_is_marked_by_kendalls_tau(size: int) -> None:
    # Kendall 1938, Biometrika 30:81-93; reference library: scipy.stats.kendalltau.
    key = [chr(ord("a") + place) for place in range(size)]
    asked = item({"kind": "order", "key": key})
    for answer in permutations(key):
        tau = kendalltau(range(size), [answer.index(option) for option in key]).statistic
        assert float(mark(asked, answer)) == pytest.approx(max(0.0, tau), abs=1e-12)


@pytest.mark.parametrize("case", CASES["harms"], ids=lambda case: case["name"])
def test_the_harm_of_an_answer(case: dict[str, Any]) -> None:
    assert harm_of(item(case), case["answer"]) == case["told"]


@pytest.mark.parametrize("seed", range(200))
def test_every_draw_holds_what_it_must_wherever_any_can(seed: int) -> None:
    """Against a maximum flow by a reference library: scipy.sparse.csgraph.maximum_flow."""
    chance = random.Random(seed)
    data = draw_data(chance)
    data = {**apart(data, Pcg32(seed).shuffled(range(len(data["pool"])))), "never": []}
    slots = [set(items) for count, items in data["must"] for _ in range(count)]
    drawn_items = drawn(data, seed)
    assert len(set(drawn_items)) == len(drawn_items)
    size = {pool: sum(count for at, count in data["rows"] if at == pool) for pool in set(data["pool"])}
    for pool, count in size.items():
        there = [item for item in drawn_items if data["pool"][item] == pool]
        assert len(there) == min(count, data["pool"].count(pool))
    assert most_filled(slots, drawn_items, data["pool"], dict.fromkeys(size, 10**6)) == most_filled(
        slots, range(len(data["pool"])), data["pool"], size
    )


def most_filled(
    slots: list[set[int]], items: Sequence[int], pool: Sequence[int], room: Mapping[int, int]
) -> int:
    """How many slots can have an item of their own, with so much room in each pool."""
    pools, places = sorted(set(pool)), {one: number for number, one in enumerate(items)}
    first_item, first_pool = 1 + len(slots), 1 + len(slots) + len(items)
    sink = first_pool + len(pools)
    graph = np.zeros((sink + 1, sink + 1), dtype=np.int32)
    for number, slot in enumerate(slots, 1):
        graph[0, number] = 1
        for one in slot & places.keys():
            graph[number, first_item + places[one]] = 1
    for one, place in places.items():
        graph[first_item + place, first_pool + pools.index(pool[one])] = 1
    for number, name in enumerate(pools):
        graph[first_pool + number, sink] = room.get(name, 0)
    return int(maximum_flow(csr_matrix(graph), 0, sink).flow_value)


def formula_score(right: int, wrong: int, k: int) -> Fraction:
    """formula-score: correction for guessing among k answers (standard formula, as in statistics texts)."""
    return right - Fraction(wrong, k - 1)


@pytest.mark.parametrize(("keys", "options"), [(1, 3), (2, 4), (2, 5), (3, 6)])
def test_several_takes_off_for_guessing_like_so_many_yes_or_no_questions(keys: int, options: int) -> None:
    assert formula_score(right=30, wrong=12, k=4) == 26  # formula-score
    names = [chr(ord("a") + place) for place in range(options)]
    asked = item({"kind": "several", "key": names[:keys]})
    for size in range(options + 1):
        for picks in combinations(names, size):
            right = len(set(picks) & set(names[:keys]))
            score = formula_score(right, size - right, k=2)
            assert mark(asked, picks) == max(Fraction(0), score) / keys


letters = st.sampled_from("abcdef")


@given(st.sets(letters, min_size=1), st.lists(letters), st.randoms())
def test_the_order_of_ticks_does_not_matter(key: set[str], picks: list[str], chance: Any) -> None:
    asked = item({"kind": "several", "key": sorted(key)})
    other = picks.copy()
    chance.shuffle(other)
    assert mark(asked, picks) == mark(asked, other)
    assert 0 <= mark(asked, picks) <= 1
    assert is_held(mark(asked, picks)) == (set(picks) == key)


@given(st.permutations("abcde"), st.permutations("abcde"))
def test_only_the_right_order_is_held(key: list[str], answer: list[str]) -> None:
    found = mark(item({"kind": "order", "key": key}), answer)
    assert 0 <= found <= 1
    assert is_held(found) == (answer == key)


@given(st.decimals(-1000, 1000, places=3), st.decimals(0, 10, places=3), st.decimals(-1000, 1000, places=3))
def test_numbers_are_marked_exactly(value: Any, within: Any, typed: Any) -> None:
    key = [[*Fraction(value).as_integer_ratio()], [*Fraction(within).as_integer_ratio()]]
    asked = item({"kind": "number", "key": key})
    held = abs(Fraction(typed) - Fraction(value)) <= Fraction(within)
    assert mark(asked, f"{typed:f}") == mark(asked, f" {typed:f} ".replace(".", ",")) == held


@given(st.lists(st.fractions(0, 1), min_size=1), st.fractions(0, 1), st.randoms())
def test_a_quiz_is_marked_alike_in_any_order(marks: list[Fraction], pass_mark: Fraction, chance: Any) -> None:
    other = marks.copy()
    chance.shuffle(other)
    assert mark_quiz(marks, 1, pass_mark) == mark_quiz(other, 1, pass_mark)
    assert 0 <= mark_quiz(marks, 1, pass_mark).mark <= 1
