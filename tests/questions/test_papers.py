"""How often a paper turns a careful learner away."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.course import BlueprintRow, Quiz
from builder.decide.harm import ActedOn
from builder.questions import Item, ItemOption, draw_quiz
from builder.questions.papers import turned_away


def items(risky: int, safe: int) -> tuple[Item, ...]:
    options = (ItemOption("a", "A"), ItemOption("b", "B", acted=ActedOn("serious")))
    plain = (ItemOption("a", "A"), ItemOption("b", "B", acted=ActedOn("serious", unsure=True)))
    made = [Item(f"r{n}", "one", "o", "?", "a", options) for n in range(risky)]
    return tuple(made + [Item(f"s{n}", "one", "o", "?", "a", plain) for n in range(safe)])


@pytest.mark.parametrize(("risky", "safe"), [(0, 3), (1, 0), (3, 4), (20, 0)])
def test_the_chance_of_at_least_one_unsafe_answer(risky: int, safe: int) -> None:
    """Binomial: one less the chance of none in k answers, each safe 98 times in 100."""
    bank = items(risky, safe)
    quiz = Quiz("q", "Q", blueprint=(BlueprintRow("o", risky + safe),))
    assert turned_away(quiz, bank) == pytest.approx(1 - 0.98**risky, abs=1e-12)


def test_over_draws_it_is_the_mean() -> None:
    """Over the first twenty-five."""
    quiz = Quiz("q", "Q", blueprint=(BlueprintRow("o", 1),))
    some = turned_away(quiz, items(1, 1))
    assert 0.1 * 0.02 < some < 0.9 * 0.02
    asked = [draw_quiz(quiz, items(1, 1), seed) for seed in range(1, 26)]
    assert some == pytest.approx(0.02 * sum(one.id == "r0" for (one,) in asked) / 25, abs=1e-12)
    assert turned_away(replace(quiz, blueprint=()), ()) == 0
