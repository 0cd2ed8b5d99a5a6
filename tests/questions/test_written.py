"""Written questions: one key, options in an order that does not tell it."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course import Option, Pair, Question
from builder.questions import Item
from builder.questions.item import option_id
from builder.questions.marking import mark
from builder.questions.written import item_of

texts = st.lists(st.text(min_size=1, max_size=6), min_size=2, max_size=6, unique=True)
ids = st.from_regex(r"q-[a-z0-9]{1,6}", fullmatch=True)


def shown(item: Item) -> list[str]:
    return [option.text for option in item.options]


def text_of(item: Item, option: str) -> str:
    return next(one.text for one in item.options if one.id == option)


def one(name: str, options: list[str], key: str) -> Question:
    return Question(
        name, "one", "o", "?", tuple(Option(text, text == key, f"why {text}") for text in options)
    )


@given(ids, texts, st.data())
def test_one_has_one_key_and_every_reason_stays_with_its_text(
    name: str, options: list[str], data: st.DataObject
) -> None:
    key = data.draw(st.sampled_from(options))
    item = item_of(one(name, options, key))
    assert sorted(shown(item)) == sorted(options)
    assert [text_of(item, option.id) for option in item.options if mark(item, option.id) == 1] == [key]
    assert all(option.why == f"why {option.text}" for option in item.options)
    assert [option.id for option in item.options] == [option_id(n) for n in range(len(options))]


@given(ids, texts, st.data())
def test_the_order_shown_does_not_depend_on_the_order_written_or_on_the_key(
    name: str, options: list[str], data: st.DataObject
) -> None:
    other = data.draw(st.permutations(options))
    keys = data.draw(st.tuples(st.sampled_from(options), st.sampled_from(options)))
    assert shown(item_of(one(name, options, keys[0]))) == shown(item_of(one(name, other, keys[1])))


def test_the_key_stands_in_every_place_about_as_often() -> None:
    places = Counter(item_of(one(f"q-{n}", ["w", "x", "y", "z"], "w")).key for n in range(400))
    assert set(places) == {"a", "b", "c", "d"}
    # 400 fair draws of one in four: 100 each, standard deviation 8.7; five of them either way.
    assert all(56 <= count <= 144 for count in places.values())


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        (["10", "9", "100"], ["9", "10", "100"]),
        (["3.5 cm", "−1 cm", "3 cm"], ["−1 cm", "3 cm", "3.5 cm"]),
        (["12°", "8°", "40°"], ["8°", "12°", "40°"]),
        (["2,5", "2", "10"], ["2", "2,5", "10"]),
    ],
)
def test_numbers_stand_by_size(written: list[str], expected: list[str]) -> None:
    assert shown(item_of(one("q", written, written[0]))) == expected


def test_numbers_of_different_units_do_not() -> None:
    orders = {tuple(shown(item_of(one(f"q-{n}", ["1 m", "20 cm", "3 m"], "1 m")))) for n in range(60)}
    assert len(orders) == 6


@given(ids, texts, st.data())
def test_several_holds_with_exactly_its_keys(name: str, options: list[str], data: st.DataObject) -> None:
    right = data.draw(st.sets(st.sampled_from(options), min_size=1))
    written = tuple(Option(text, text in right) for text in options)
    item = item_of(Question(name, "several", "o", "?", written))
    assert {text_of(item, str(option)) for option in item.key} == right
    assert list(item.key) == sorted(str(option) for option in item.key)
    assert mark(item, [str(option) for option in item.key]) == 1


@given(ids, texts)
def test_steps_left_as_they_stand_earn_nothing(name: str, steps: list[str]) -> None:
    item = item_of(Question(name, "order", "o", "?", items=tuple(steps)))
    assert [text_of(item, str(option)) for option in item.key] == steps
    assert mark(item, [option.id for option in item.options]) == 0
    assert mark(item, [str(option) for option in item.key]) == 1


def test_steps_with_the_same_words_are_each_an_option() -> None:
    item = item_of(Question("q", "order", "o", "?", items=("in", "out", "in", "out")))
    assert len(item.options) == 4
    assert len(set(item.key)) == 4


@given(ids, texts, st.data())
def test_pairs_hold_with_each_left_beside_its_right(
    name: str, rights: list[str], data: st.DataObject
) -> None:
    spare = data.draw(st.lists(st.sampled_from(rights), max_size=2))
    pairs = tuple(Pair(f"left {n}", right) for n, right in enumerate(rights[1:] + rights[:1] + spare))
    item = item_of(Question(name, "pairs", "o", "?", pairs=pairs, spare=("something else entirely",)))
    assert item.lefts == tuple(pair.left for pair in pairs)
    assert [text_of(item, str(option)) for option in item.key] == [pair.right for pair in pairs]
    assert len(set(shown(item))) == len(item.options)
    assert "something else entirely" in shown(item)


def test_a_number_keeps_its_range_and_unit() -> None:
    item = item_of(
        Question("q", "number", "o", "?", answer=Fraction("12.5"), within=Fraction("0.5"), unit="cm")
    )
    assert (item.key, item.unit, item.options) == ((Fraction(25, 2), Fraction(1, 2)), "cm", ())


def test_a_question_without_a_key_has_none_that_holds() -> None:
    item = item_of(Question("q", "one", "o", "?", (Option("a"), Option("b"))))
    assert not any(mark(item, option.id) for option in item.options)


def test_letters_go_on_after_z() -> None:
    assert [option_id(n) for n in (0, 25, 26, 27, 51, 52)] == ["a", "z", "aa", "ab", "az", "ba"]
