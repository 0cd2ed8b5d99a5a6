"""What the educator's own pages tell of the question bank and of each quiz."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from statistics import median

from builder.answers import Answers
from builder.course import Quiz
from builder.questions import Item
from builder.questions.guessing import HABITS, Habit, passed_by
from builder.questions.papers import exposure, turned_away

PAPERS = 200
"""Draws over which exposure is counted."""


@dataclass(frozen=True, slots=True)
class Bank:
    """The questions of one objective."""

    objective: str
    label: str
    level: str | None
    items: tuple[Item, ...]

    @property
    def kinds(self) -> Mapping[str, int]:
        return Counter(item.kind for item in self.items)

    @property
    def sorts(self) -> Mapping[str, int]:
        """Sort of family to questions; written ones are of the sort `""`."""
        return Counter(item.sort or "" for item in self.items)

    @property
    def unsure(self) -> int:
        """Questions whose key is too unsure for a quiz."""
        return sum(not item.marked for item in self.items)


def banks(answers: Answers) -> list[Bank]:
    """The bank by objective, in the order of the course; objectives without a question as well."""
    by: dict[str, list[Item]] = {name: [] for name in answers.course.objectives}
    for item in answers.bank:
        by.setdefault(item.objective, []).append(item)
    known = answers.course.objectives
    return [
        Bank(
            name,
            known[name].label if name in known else name,
            known[name].level if name in known else None,
            tuple(items),
        )
        for name, items in by.items()
    ]


@dataclass(frozen=True, slots=True)
class Exposed:
    """How often draws ask each question."""

    least: float
    middle: float
    most: float
    never: int
    """Questions that no draw asked."""
    often: tuple[tuple[Item, float], ...]
    """Those asked most, with the share of draws."""


@dataclass(frozen=True, slots=True)
class OfQuiz:
    """One quiz as its educator should know it."""

    quiz: Quiz
    asks: int
    pool: int
    clients: int
    guessed: Mapping[Habit, float]
    turned_away: float
    exposed: Exposed | None


_OFTEN = 5


def of_quiz(answers: Answers, quiz: Quiz) -> OfQuiz:
    """What guessing scores, whom a paper turns away, and how often each question is asked."""
    pool, asks = answers.pools[quiz.name], len(answers.first_draws[quiz.name])
    pass_mark = answers.pass_mark(quiz)
    return OfQuiz(
        quiz,
        asks,
        len(pool),
        len({item.case for item in pool} - {None}),
        {habit: passed_by(quiz, pool, pass_mark, habit) for habit in HABITS},
        turned_away(quiz, pool) if quiz.serious == "fails" else 0.0,
        _exposed(quiz, pool) if pool else None,
    )


def _exposed(quiz: Quiz, pool: tuple[Item, ...]) -> Exposed:
    shares = exposure(quiz, pool, PAPERS)
    items = {item.id: item for item in pool}
    often = sorted(shares.items(), key=lambda one: (-one[1], one[0]))[:_OFTEN]
    return Exposed(
        min(shares.values()),
        median(shares.values()),
        max(shares.values()),
        sum(share == 0 for share in shares.values()),
        tuple((items[name], share) for name, share in often),
    )


@dataclass(frozen=True, slots=True)
class Places:
    """Where the right option stands among so many, over written questions."""

    options: int
    counts: tuple[int, ...]


def places(items: Iterable[Item]) -> list[Places]:
    """For each number of options, how often the right one stands in each place, as shown."""
    found: dict[int, Counter[int]] = {}
    for item in items:
        if item.kind == "one" and item.family is None:
            ids = [option.id for option in item.options]
            found.setdefault(len(ids), Counter())[ids.index(str(item.key))] += 1
    return [
        Places(options, tuple(counted[place] for place in range(options)))
        for options, counted in sorted(found.items())
    ]
