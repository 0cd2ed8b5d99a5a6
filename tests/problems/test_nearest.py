"""What a word was most likely meant to be."""

from __future__ import annotations

import pytest

from builder.problems.nearest import nearest_words

OUTCOMES = ["narrow", "middle", "wide", "refer_out"]


@pytest.mark.parametrize(
    ("word", "near"),
    [("wid", ["wide"]), ("Refer-Out", ["refer_out"]), ("midle", ["middle"]), ("tall", []), ("", [])],
)
def test_the_nearest_choice(word: str, near: list[str]) -> None:
    assert nearest_words(word, OUTCOMES) == near


def test_a_word_that_only_shares_letters_is_not_near() -> None:
    assert nearest_words("wide", ["narrow", "middle", "broad"]) == []
