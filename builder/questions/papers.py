"""What the papers of a quiz ask of a careful learner."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from statistics import fmean

from builder.course import Quiz

from .draw import draw_data, drawn, quiz_pool
from .item import Item

SAFE = 0.98
"""How often the careful learner gives a safe answer where an unsafe one can be given."""
PAPERS = 25
"""Draws that are looked at, from number 1 on."""


def exposure(quiz: Quiz, bank: Sequence[Item], papers: int = 200) -> dict[str, float]:
    """Id of each question that the quiz can ask, to the share of its first draws that ask it."""
    pool, data = quiz_pool(quiz, bank), draw_data(quiz, bank)
    times = Counter(item for seed in range(1, papers + 1) for item in drawn(data, seed))
    return {item.id: times[number] / papers for number, item in enumerate(pool)}


def turned_away(quiz: Quiz, bank: Sequence[Item]) -> float:
    """The mean over draws of the chance of at least one serious answer, 1 - 0.98^k with k questions that have
    a serious option, each answered independently of the others (the complement of no success in k Bernoulli
    trials)."""
    pool, data = quiz_pool(quiz, bank), draw_data(quiz, bank)
    risky = [any(option.harm == "serious" for option in item.options) for item in pool]
    draws = (drawn(data, seed) for seed in range(1, PAPERS + 1))
    return fmean(1 - SAFE ** sum(risky[item] for item in draw) for draw in draws)
