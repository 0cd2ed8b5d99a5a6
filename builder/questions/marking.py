"""Marks items and quizzes. The rules stand in `MARKING.md`; `marking.js` in the browser does the same.

Source: Kendall 1938, Biometrika 30:81-93 (order).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from builder.decide.harm import TOLD, Told

from .item import Item
from .numbers import read_number

Reply = str | Sequence[str] | None
"""one: an option id. several: option ids in any order. number: the text typed. order: option ids in the order
chosen. pairs: an option id for each left-hand text, empty where none was chosen. None: no reply."""


@dataclass(frozen=True, slots=True)
class QuizMark:
    mark: Fraction
    """Mean of the questions' marks. A quiz that asks nothing has 0."""
    held: bool


def mark(item: Item, reply: Reply) -> Fraction:
    """The mark of one reply, from 0 to 1. A reply that does not fit the item's kind is worth 0."""
    if not reply:
        return Fraction(0)
    if item.kind == "one":
        return Fraction(reply == item.key)
    if item.kind == "number":
        return _number(item, reply)
    key = [part for part in item.key if isinstance(part, str)]
    picks = [reply] if isinstance(reply, str) else list(reply)
    if item.kind == "several":
        right = len(set(picks) & set(key))
        wrong = len(set(picks) - set(key))
        return Fraction(max(0, right - wrong), max(1, len(key)))
    if item.kind == "order":
        return _order(key, picks)
    return Fraction(sum(a == b for a, b in zip(key, picks, strict=False)), max(1, len(key)))


def is_held(marked: Fraction) -> bool:
    return marked == 1


def harm_of(item: Item, reply: Reply) -> Told:
    """The harm of acting on a reply: the worst of the wrong options chosen, and of right ones left out."""
    if item.kind not in ("one", "several") or not reply:
        return "none"
    picks, keys = {reply} if isinstance(reply, str) else set(reply), set(item.key)
    wrong = (one.harm for one in item.options if (one.id in picks) != (one.id in keys))
    return max(wrong, key=TOLD.index, default="none")


def mark_quiz(marks: Sequence[Fraction], pass_mark: Fraction, serious: bool = False) -> QuizMark:
    """The mark of a quiz, and whether it is passed; `serious`: an answer keeps it from that."""
    if not marks:
        return QuizMark(Fraction(0), False)
    share = sum(marks, Fraction(0)) / len(marks)
    return QuizMark(share, share >= pass_mark and not serious)


def by_objective(answered: Iterable[tuple[str, bool]]) -> dict[str, tuple[int, int]]:
    """Objective to (held, answered), from (objective, held) of each."""
    counts: dict[str, tuple[int, int]] = {}
    for objective, held in answered:
        before, of = counts.get(objective, (0, 0))
        counts[objective] = (before + held, of + 1)
    return counts


def _number(item: Item, reply: Reply) -> Fraction:
    number = read_number(reply) if isinstance(reply, str) else None
    parts = [part for part in item.key if isinstance(part, Fraction)]
    if number is None or len(parts) != 2:
        return Fraction(0)
    value, within = parts
    return Fraction(abs(number - value) <= within)


def _order(key: Sequence[str], picks: Sequence[str]) -> Fraction:
    """Kendall's tau without ties: (concordant - discordant) / all pairs, not below 0."""
    if sorted(picks) != sorted(key):
        return Fraction(0)
    if len(key) < 2:
        return Fraction(1)
    place = {option: number for number, option in enumerate(picks)}
    pairs = list(combinations(key, 2))
    concordant = sum(place[first] < place[then] for first, then in pairs)
    return max(Fraction(0), Fraction(2 * concordant - len(pairs), len(pairs)))
