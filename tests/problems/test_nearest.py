"""What a word was most likely meant to be."""

from __future__ import annotations

import pytest

from builder.problems.nearest import nearest_word

OUTCOMES = ["narrow", "middle", "wide", "refer_out"]


@pytest.mark.parametrize(
    ("word", "near"),
    [("wid", "wide"), ("Refer-Out", "refer_out"), ("midle", "middle"), ("tall", None), ("", None)],
)
def test_the_nearest_choice(word: str, near: str | None) -> None:
    assert nearest_word(word, OUTCOMES) == near


def test_a_word_that_only_shares_letters_is_not_near() -> None:
    assert nearest_word("wide", ["narrow", "middle", "broad"]) is None
