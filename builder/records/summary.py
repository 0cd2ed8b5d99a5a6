"""What the records of several learners amount to. The browser's `web/summary.js` counts by the same rules."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from .names import same
from .record import Attempt, Record, merge


@dataclass(frozen=True, slots=True)
class QuizScore:
    """How a learner did in whole quizzes of one name. Marks are shares of the full mark."""

    first: float
    best: float
    held: bool
    """Whether the best one reached the pass mark of its time."""
    times: int


@dataclass(frozen=True, slots=True)
class WalkScore:
    """How a learner did in an exercise, over all clients."""

    walks: int
    held: int
    minor: int
    """Walks whose worst answer could have done minor harm."""
    serious: int


@dataclass(frozen=True, slots=True)
class Learner:
    name: str
    """As the first record has it; empty where none was typed."""
    also: tuple[str, ...]
    """The name as others have it: with other capitals or spaces."""
    files: tuple[str, ...]
    editions: tuple[tuple[str, str], ...]
    """Version and build of the course that the copies were saved from."""
    first_day: str
    """2026-06-01 in UTC; empty without an attempt."""
    last_day: str
    objectives: Mapping[str, tuple[int, int]]
    """Objective to first attempts held and made, at questions and steps of walks."""
    quizzes: Mapping[str, QuizScore]
    exercises: Mapping[str, WalkScore]


def by_learner(records: Iterable[tuple[str, Record]]) -> tuple[Learner, ...]:
    """One entry for each name, over all its files, sorted by name. A record without a name stands alone."""
    groups: dict[tuple[str, str], list[tuple[str, Record]]] = defaultdict(list)
    for file, record in records:
        name = same(record.learner)
        groups[name, "" if name else file].append((file, record))
    return tuple(_learner(group) for _, group in sorted(groups.items()))


def _learner(group: list[tuple[str, Record]]) -> Learner:
    attempts = merge(record for _, record in group)
    name, *also = dict.fromkeys(record.learner for _, record in group)
    return Learner(
        name,
        tuple(also),
        tuple(sorted(file for file, _ in group)),
        tuple(sorted({(record.version, record.build) for _, record in group})),
        attempts[0].at[:10] if attempts else "",
        attempts[-1].at[:10] if attempts else "",
        _objectives(attempts),
        _quizzes(attempts),
        _exercises(attempts),
    )


def _objectives(attempts: Iterable[Attempt]) -> dict[str, tuple[int, int]]:
    counts: dict[str, tuple[int, int]] = {}
    for attempt in attempts:
        if attempt.objective and attempt.first:
            held, of = counts.get(attempt.objective, (0, 0))
            counts[attempt.objective] = (held + attempt.holds, of + 1)
    return counts


def _quizzes(attempts: Iterable[Attempt]) -> dict[str, QuizScore]:
    ended: dict[str, list[Attempt]] = defaultdict(list)
    for attempt in attempts:
        if attempt.kind == "quiz":
            ended[attempt.id].append(attempt)
    scores = {}
    for quiz, ends in ended.items():
        # Of equal marks one that held is the better, since pass marks change; else the earliest counts.
        best = max(ends, key=lambda end: (end.mark, end.holds))
        scores[quiz] = QuizScore(ends[0].mark, best.mark, best.holds, len(ends))
    return scores


def _exercises(attempts: Iterable[Attempt]) -> dict[str, WalkScore]:
    walks: dict[str, list[Attempt]] = defaultdict(list)
    for attempt in attempts:
        if attempt.kind == "walk":
            walks[attempt.id.partition("/")[0]].append(attempt)
    return {
        exercise: WalkScore(
            len(ends),
            sum(end.holds for end in ends),
            sum(end.harm == "minor" for end in ends),
            sum(end.harm == "serious" for end in ends),
        )
        for exercise, ends in walks.items()
    }
