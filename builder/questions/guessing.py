"""How often a quiz is passed by people who know nothing of its subject.

Three of them: who picks blindly, who always picks the longest option, and who always sends the client on.
Where a habit says nothing about a question, they pick blindly. What is worked out is exact for each draw: the
sum of independent marks (a convolution), without whatever keeps a quiz from being passed.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import combinations
from math import ceil, comb, lcm
from statistics import fmean
from typing import Literal

from builder.course import Quiz

from .draw import draw_data, drawn, quiz_pool
from .item import Item
from .marking import harm_of, mark
from .papers import PAPERS

Habit = Literal["blind", "longest", "refer"]
HABITS: tuple[Habit, ...] = ("blind", "longest", "refer")
Marks = Mapping[tuple[Fraction, bool], float]
"""Mark, and whether the answer is unsafe, to its chance."""
_RIGHT, _WRONG = Fraction(1), Fraction(0)
_MOST_BOXES = 10
"""Options of a question with several right ones, up to which all ways of ticking them are gone through."""


def passed_by(quiz: Quiz, bank: Sequence[Item], pass_mark: Fraction, habit: Habit) -> float:
    """The mean over draws of the chance to pass, 0 for a quiz that asks nothing."""
    pool, data = quiz_pool(quiz, bank), draw_data(quiz, bank)
    draws = [drawn(data, seed) for seed in range(1, PAPERS + 1)]
    marks = {item: _spent(guessed(pool[item], habit), quiz) for draw in draws for item in draw}
    return fmean(chance_to_pass([marks[item] for item in draw], pass_mark) for draw in draws)


def at_most(quiz: Quiz, bank: Sequence[Item], pass_mark: Fraction, habit: Habit) -> float:
    """A bound that no draw exceeds, for a fraction of the work: as if each place asked what is guessed best
    of all that can stand there (first-order stochastic dominance), and no answer were unsafe."""
    pool, data = quiz_pool(quiz, bank), draw_data(quiz, bank)
    sizes = Counter(data["pool"])
    by_pool: dict[int, set[Bare]] = defaultdict(set)
    for number, item in enumerate(pool):
        by_pool[data["pool"][number]].add(_whatever_the_harm(item, habit))
    places: list[dict[Fraction, float]] = []
    for of, count in data["rows"]:
        places += [_best(map(dict, by_pool[of]))] * min(count, sizes[of])
    return chance_to_pass(places, pass_mark)


def guessed(item: Item, habit: Habit) -> Marks:
    """What someone with a habit gains at one question."""
    if item.kind == "one":
        picks = _picks(item, habit)
        risky = any(option.harm == "serious" for option in item.options)
        found: dict[tuple[Fraction, bool], float] = defaultdict(float)
        for pick in picks:
            unsafe = risky and harm_of(item, pick) == "serious"
            found[_RIGHT if pick == item.key else _WRONG, unsafe] += 1 / len(picks)
        return found
    if item.kind == "several":
        return _ticked(item)
    if item.kind == "order":
        return {(share, False): chance for share, chance in _ordered(len(item.options)).items()}
    if item.kind == "pairs":
        lefts, options = len(item.lefts), len(item.options)
        return {
            (Fraction(right, lefts), False): comb(lefts, right)
            * (1 / options) ** right
            * (1 - 1 / options) ** (lefts - right)
            for right in range(lefts + 1)
        }
    return {(Fraction(0), False): 1.0}


Bare = frozenset[tuple[Fraction, float]]
"""Marks with their chances."""


def _whatever_the_harm(item: Item, habit: Habit) -> Bare:
    """What is gained at one question. Banks hold thousands, most alike in this."""
    if item.kind != "one":
        return frozenset(_spent(guessed(item, habit), None).items())
    picks = _picks(item, habit)
    return _one_of(len(picks)) if item.key in picks else _NEVER


@lru_cache(256)
def _one_of(picks: int) -> Bare:
    return frozenset({_RIGHT: 1 / picks, _WRONG: 1 - 1 / picks}.items())


_NEVER: Bare = frozenset({_WRONG: 1.0}.items())


def chance_to_pass(marks: Sequence[Mapping[Fraction, float]], pass_mark: Fraction) -> float:
    """The chance that the mean of independent marks reaches the pass mark. Where the chances of one question
    sum to less than 1, the rest does not pass. 0 without a question."""
    if not marks:
        return 0.0
    parts = lcm(*(mark.denominator for one in marks for mark in one))
    wanted = ceil(pass_mark * len(marks) * parts)
    spare = parts * len(marks) - wanted
    lost: dict[int, float] = {0: 1.0}
    """Parts of the full mark lost so far; what is lost beyond `spare` can no more be passed."""
    for one in marks:
        after: dict[int, float] = defaultdict(float)
        losses = [(parts - int(gained * parts), share) for gained, share in one.items()]
        for gone, chance in lost.items():
            for loss, share in losses:
                total = gone + loss
                if total <= spare:
                    after[total] += chance * share
        lost = after
    return sum(lost.values())


def _picks(item: Item, habit: Habit) -> list[str]:
    """The options among which they pick blindly."""
    if habit == "longest":
        most = max(len(option.text) for option in item.options)
        return [option.id for option in item.options if len(option.text) == most]
    if habit == "refer":
        sending = [*item.stops, *(o.id for o in item.options if o.acted and o.acted.overcautious)]
        if sending:
            return sending
    return [option.id for option in item.options]


def _ticked(item: Item) -> Marks:
    """Every way of ticking one box or more is as likely as any other; of very many boxes, one is ticked."""
    ids = [option.id for option in item.options]
    sizes = range(1, len(ids) + 1) if len(ids) <= _MOST_BOXES else range(1, 2)
    ways = [way for size in sizes for way in combinations(ids, size)]
    found: dict[tuple[Fraction, bool], float] = defaultdict(float)
    for way in ways:
        found[mark(item, way), harm_of(item, way) == "serious"] += 1 / len(ways)
    return found


@lru_cache(256)
def _ordered(count: int) -> Mapping[Fraction, float]:
    """Marks of an order taken blindly: numbers of inversions of a permutation are counted by the product of
    1 + x + ... + x^(j-1) for j up to `count` (MacMahon; Knuth, The Art of Computer Programming 3, 5.1.1; from
    memory)."""
    ways = [1]
    for size in range(2, count + 1):
        ways = [sum(ways[max(0, n - size + 1) : n + 1]) for n in range(len(ways) + size - 1)]
    pairs, every = comb(count, 2), sum(ways)
    if not pairs:
        return {Fraction(1): 1.0}
    found: dict[Fraction, float] = defaultdict(float)
    for inversions, number in enumerate(ways):
        found[max(Fraction(0), Fraction(pairs - 2 * inversions, pairs))] += number / every
    return found


def _spent(marks: Marks, quiz: Quiz | None) -> dict[Fraction, float]:
    """Chances of marks; what is unsafe is gone where it keeps the quiz from being passed."""
    found: dict[Fraction, float] = defaultdict(float)
    for (gained, unsafe), chance in marks.items():
        if not (unsafe and quiz is not None and quiz.serious == "fails"):
            found[gained] += chance
    return found


def _best(some: Iterable[Mapping[Fraction, float]]) -> dict[Fraction, float]:
    """Marks that are reached at least as often as by any of `some`."""
    rows = list(some)
    steps = sorted({gained for one in rows for gained in one}, reverse=True)
    found: dict[Fraction, float] = {}
    so_far = 0.0
    for step in steps:
        reached = max(sum(chance for gained, chance in one.items() if gained >= step) for one in rows)
        found[step], so_far = reached - so_far, reached
    return found
