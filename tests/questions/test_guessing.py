"""How often people pass who know nothing: against going through every paper, and published formulas."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import permutations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import binom

from builder.course import BlueprintRow, Quiz
from builder.decide.harm import ActedOn
from builder.questions import Item, ItemOption, draw_quiz
from builder.questions.guessing import HABITS, Habit, at_most, chance_to_pass, guessed, passed_by
from builder.questions.marking import harm_of, mark, mark_quiz

UNSAFE = ActedOn("serious")
REFERS = ActedOn("none", overcautious=True)


def one(
    name: str, texts: str = "abcd", unsafe: str = "", refers: str = "", stops: tuple[str, ...] = ()
) -> Item:
    """A question with one right answer, the first; `texts` stand for options as long as their place says."""
    acted = dict.fromkeys(unsafe, UNSAFE) | dict.fromkeys(refers, REFERS)
    options = tuple(ItemOption(id, id, acted=acted.get(id)) for id in texts)
    return Item(name, "one", "o", "?", texts[0], options, stops=stops)


def quiz_of(count: int, **more: object) -> Quiz:
    return Quiz("q", "Q", blueprint=(BlueprintRow("o", count),), **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(("count", "options"), [(1, 4), (5, 4), (10, 3), (20, 2)])
@pytest.mark.parametrize("pass_mark", [Fraction(1), Fraction(4, 5), Fraction(1, 2)])
def test_blind_picks_are_binomial(count: int, options: int, pass_mark: Fraction) -> None:
    """The number of right answers of so many blind picks among k options: scipy's binomial distribution."""
    bank = [one(f"i{n}", "abcdefgh"[:options]) for n in range(count)]
    needed = -(-pass_mark * count // 1)
    expected = binom.sf(int(needed) - 1, count, 1 / options)
    assert passed_by(quiz_of(count), bank, pass_mark, "blind") == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize("options", [2, 3, 4, 5])
def test_correction_for_guessing_leaves_a_blind_guess_nothing(options: int) -> None:
    """Right less wrong / (k - 1): the standard formula of correction for guessing expects 0."""
    chances = guessed(one("i", "abcdefgh"[:options]), "blind")
    right = sum(chance for (gained, _), chance in chances.items() if gained == 1)
    assert right - (1 - right) / (options - 1) == pytest.approx(0, abs=1e-12)


def test_who_gives_an_unsafe_answer_has_not_passed_unless_it_is_told_only() -> None:
    bank = [one(f"i{n}", unsafe="b") for n in range(3)]
    half = Fraction(1, 3)
    safe = sum(
        all(pick != "b" for pick in picks) and picks.count("a") >= 1 for picks in product("abcd", repeat=3)
    )
    assert passed_by(quiz_of(3), bank, half, "blind") == pytest.approx(safe / 64)
    told = sum(picks.count("a") >= 1 for picks in product("abcd", repeat=3))
    assert passed_by(quiz_of(3, serious="told"), bank, half, "blind") == pytest.approx(told / 64)


def test_the_longest_is_picked_and_of_several_that_are_one() -> None:
    texts = {"a": "right", "b": "wrong", "c": "no"}
    item = Item("i", "one", "o", "?", "a", tuple(ItemOption(id, text) for id, text in texts.items()))
    assert guessed(item, "longest") == {(Fraction(1), False): 0.5, (Fraction(0), False): 0.5}
    longer = Item("i", "one", "o", "?", "a", (ItemOption("a", "the right one"), *item.options[1:]))
    assert guessed(longer, "longest") == {(Fraction(1), False): 1.0}


def test_who_always_sends_on_is_right_about_those_to_send_on() -> None:
    assert guessed(one("i", stops=("a", "b")), "refer") == {
        (Fraction(1), False): 0.5,
        (Fraction(0), False): 0.5,
    }
    assert guessed(one("i", refers="c"), "refer") == {(Fraction(0), False): 1.0}
    assert guessed(one("i"), "refer") == guessed(one("i"), "blind"), "where nobody can be sent on"


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5, 6])
def test_an_order_taken_blindly_is_any_order(count: int) -> None:
    ids = "abcdef"[:count]
    item = Item("i", "order", "o", "?", tuple(ids), tuple(ItemOption(id, id) for id in ids))
    every = Counter(mark(item, order) for order in permutations(ids))
    found = {gained: chance for (gained, _), chance in guessed(item, "blind").items()}
    assert {gained: chance for gained, chance in found.items() if chance} == {
        gained: pytest.approx(number / every.total()) for gained, number in every.items()
    }


def test_boxes_are_ticked_in_every_way_and_pairs_joined_in_any() -> None:
    options = tuple(ItemOption(id, id, acted=UNSAFE if id == "d" else None) for id in "abcd")
    item = Item("i", "several", "o", "?", ("a", "b"), options)
    ways = [way for way in product((True, False), repeat=4) if any(way)]
    picks = [[id for id, there in zip("abcd", way, strict=True) if there] for way in ways]
    every = Counter((mark(item, pick), harm_of(item, pick) == "serious") for pick in picks)
    assert guessed(item, "blind") == {key: pytest.approx(n / 15) for key, n in every.items()}
    pairs = Item("i", "pairs", "o", "?", ("a", "b"), options, lefts=("x", "y"))
    joined = Counter(mark(pairs, picks) for picks in product("abcd", repeat=2))
    assert guessed(pairs, "blind") == {
        (gained, False): pytest.approx(number / 16) for gained, number in joined.items()
    }
    number = Item("i", "number", "o", "?", (Fraction(32), Fraction(1)))
    assert guessed(number, "longest") == {(Fraction(0), False): 1.0}


ITEMS = st.lists(
    st.builds(
        one,
        st.uuids().map(str),
        st.sampled_from(["ab", "abc", "abcd"]),
        st.sampled_from(["", "b"]),
        st.sampled_from(["", "b"]),
        st.sampled_from([(), ("a",)]),
    ),
    min_size=1,
    max_size=4,
)
MARKS = st.sampled_from([Fraction(1, 2), Fraction(2, 3), Fraction(4, 5), Fraction(1)])


@given(ITEMS, MARKS, st.sampled_from(HABITS), st.sampled_from(["fails", "told"]))
@settings(max_examples=60)
def test_every_paper_counted_gives_the_same(
    items: list[Item], pass_mark: Fraction, habit: Habit, serious: str
) -> None:
    """All items asked, so every draw is the same paper; picks of a habit counted one by one."""
    quiz = quiz_of(len(items), serious=serious)
    chances = [guessed(item, habit) for item in items]
    expected = 0.0
    for way in product(*(one.items() for one in chances)):
        share = 1.0
        for _, chance in way:
            share *= chance
        unsafe = serious == "fails" and any(unsafe for (_, unsafe), _ in way)
        expected += share * mark_quiz([gained for (gained, _), _ in way], pass_mark, unsafe).held
    assert passed_by(quiz, items, pass_mark, habit) == pytest.approx(expected, abs=1e-12)


@given(ITEMS, MARKS, st.sampled_from(HABITS), st.integers(1, 4))
@settings(max_examples=60)
def test_the_bound_is_never_below(items: list[Item], pass_mark: Fraction, habit: Habit, count: int) -> None:
    quiz = quiz_of(min(count, len(items)))
    assert at_most(quiz, items, pass_mark, habit) >= passed_by(quiz, items, pass_mark, habit) - 1e-12


def test_over_draws_it_is_the_mean() -> None:
    bank = [one("two", "ab"), one("four", "abcd")]
    asked = [draw_quiz(quiz_of(1), bank, seed)[0].id for seed in range(1, 26)]
    expected = sum(0.5 if id == "two" else 0.25 for id in asked) / 25
    assert passed_by(quiz_of(1), bank, Fraction(1), "blind") == pytest.approx(expected, abs=1e-12)


def test_nothing_asked_is_nothing_passed() -> None:
    assert chance_to_pass([], Fraction(1, 2)) == 0
    assert passed_by(quiz_of(1), [], Fraction(1, 2), "blind") == 0
    assert at_most(quiz_of(1), [], Fraction(1, 2), "blind") == 0
