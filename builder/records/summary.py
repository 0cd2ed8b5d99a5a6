"""What the records of several learners amount to. The browser's `web/summary.js` counts by the same rules."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from builder.decide.harm import TOLD

from .names import same
from .record import ANSWERS, Attempt, Now, Record, by_time, has_changed, standing

VERY_SURE = 3


@dataclass(frozen=True, slots=True)
class QuizScore:
    """How a learner did in a quiz. Only sittings count whose draw was not seen before."""

    first: float | None
    """The mark of the first that counts, as a share of the full mark; None where none came to its end."""
    passed: bool
    """Whether that one was passed."""
    passed_later: int | None
    """The number of the first later one that was passed, the first being 1."""
    sittings: int
    seen: int
    """Sittings that do not count."""
    left: int
    """Sittings begun and not ended."""


@dataclass(frozen=True, slots=True)
class WalkScore:
    """How a learner did in an exercise, over all clients."""

    walks: int
    """That came to their end."""
    passed: int
    left: int
    """Begun and not ended."""
    minor: int
    """Walks, ended or not, whose worst answer could have done minor harm."""
    serious: int
    unasked: int
    """Walks, ended or not, with a decision that was unsafe for want of asking."""


First = tuple[bool, str | None]
"""Whether a first answer was right, and whom it is about."""


@dataclass(frozen=True, slots=True)
class Learner:
    name: str
    """As the first record has it; empty where none was typed."""
    also: tuple[str, ...]
    """The name as others have it: with other capitals or spaces."""
    files: tuple[str, ...]
    devices: tuple[str, ...]
    editions: tuple[tuple[str, str], ...]
    """Version and build of the course that the copies were saved from."""
    first_day: str
    """2026-06-01 in UTC; empty without an attempt."""
    last_day: str
    stopped: Mapping[str, bool]
    """Client to be stopped to whether every first answer about them did."""
    serious: tuple[Attempt, ...]
    """Unsafe answers, one for each thing asked, the earliest."""
    unasked: tuple[Attempt, ...]
    """Answers that were unsafe for want of asking, one for each thing asked, the earliest."""
    early: tuple[Attempt, ...]
    """First answers that were right before it was known. They count neither as right nor as wrong."""
    calibration: Mapping[int, tuple[int, int]]
    """How sure to first answers right and given."""
    sure_and_wrong: tuple[Attempt, ...]
    """Given very sure, and wrong: one for each thing asked, the latest; the worst harm first."""
    objectives: Mapping[str, tuple[First, ...]]
    """Objective to its first answers."""
    quizzes: Mapping[str, QuizScore]
    exercises: Mapping[str, WalkScore]
    attempts: tuple[Attempt, ...]
    """All that count, by time."""
    changed: tuple[Attempt, ...]
    """The last answer to each thing whose right answer has changed since: to be answered again."""


def _unknown(_attempt: Attempt) -> None:
    return None


def by_learner(records: Iterable[tuple[str, Record]], now: Now = _unknown) -> tuple[Learner, ...]:
    """One entry for each name, over all its files, sorted by name. A record without a name stands alone.

    `now` tells of right answers that have changed since; what was answered before counts for nothing.
    """
    groups: dict[tuple[str, str], list[tuple[str, Record]]] = defaultdict(list)
    for file, record in records:
        name = same(record.learner)
        groups[name, "" if name else file].append((file, record))
    return tuple(_learner(group, now) for _, group in sorted(groups.items()))


def _learner(group: list[tuple[str, Record]], now: Now) -> Learner:
    every = by_time(attempt for _, record in group for attempt in record.attempts)
    attempts = standing(every, now)
    name, *also = dict.fromkeys(record.learner for _, record in group)
    return Learner(
        name,
        tuple(also),
        tuple(sorted(file for file, _ in group)),
        tuple(sorted({record.device for _, record in group if record.device})),
        tuple(sorted({(record.version, record.build) for _, record in group})),
        every[0].at[:10] if every else "",
        every[-1].at[:10] if every else "",
        stopped(attempts, [record.stopped for _, record in group]),
        serious(every),
        unasked(every),
        early(attempts),
        calibration(attempts),
        sure_and_wrong(attempts),
        objectives(attempts),
        quizzes(attempts),
        exercises(attempts),
        attempts,
        changed(every, now),
    )


def stopped(attempts: Iterable[Attempt], told: Iterable[Mapping[str, bool]] = ()) -> dict[str, bool]:
    """Client to be stopped to whether every first answer about them did; `told` is the word of devices."""
    found: dict[str, bool] = {}
    for one in attempts:
        if one.first and one.client and one.stopped is not None:
            found[one.client] = found.get(one.client, True) and one.stopped
    for word in told:
        for client, did in word.items():
            found[client] = found.get(client, True) and did
    return found


def serious(attempts: Iterable[Attempt]) -> tuple[Attempt, ...]:
    return _earliest(one for one in attempts if one.kind in ANSWERS and one.harm == "serious")


def unasked(attempts: Iterable[Attempt]) -> tuple[Attempt, ...]:
    return _earliest(one for one in attempts if one.kind in ANSWERS and one.unasked)


def early(attempts: Iterable[Attempt]) -> tuple[Attempt, ...]:
    return tuple(one for one in attempts if one.first and one.is_early)


def _earliest(attempts: Iterable[Attempt]) -> tuple[Attempt, ...]:
    found: dict[str, Attempt] = {}
    for one in attempts:
        found.setdefault(one.id, one)
    return tuple(found.values())


def changed(attempts: Iterable[Attempt], now: Now) -> tuple[Attempt, ...]:
    last = {(one.kind, one.id): one for one in attempts if one.kind in ANSWERS}
    return tuple(one for one in last.values() if has_changed(one, now))


def calibration(attempts: Iterable[Attempt]) -> dict[int, tuple[int, int]]:
    counts: dict[int, tuple[int, int]] = {}
    for one in attempts:
        if one.first and one.sure and not one.is_early:
            right, of = counts.get(one.sure, (0, 0))
            counts[one.sure] = (right + one.is_good, of + 1)
    return counts


def sure_and_wrong(attempts: Iterable[Attempt]) -> tuple[Attempt, ...]:
    found = {one.id: one for one in attempts if one.sure == VERY_SURE and one.right is False}
    return tuple(sorted(found.values(), key=lambda one: -TOLD.index(one.harm or "none")))


def objectives(attempts: Iterable[Attempt]) -> dict[str, tuple[First, ...]]:
    found: dict[str, list[First]] = defaultdict(list)
    for attempt in attempts:
        if attempt.objective and attempt.first and not attempt.is_early:
            found[attempt.objective].append((attempt.is_good, attempt.client))
    return {name: tuple(firsts) for name, firsts in found.items()}


def right_of(firsts: Sequence[First]) -> tuple[int, int]:
    """First answers right and given."""
    return sum(right for right, _ in firsts), len(firsts)


def quizzes(attempts: Iterable[Attempt]) -> dict[str, QuizScore]:
    ends: dict[str, list[Attempt]] = defaultdict(list)
    begun: dict[str, set[str]] = defaultdict(set)
    for one in attempts:
        if one.kind == "quiz":
            ends[one.id].append(one)
        elif one.quiz and one.draw is not None and one.sitting:
            begun[one.quiz].add(one.sitting)
    return {
        quiz: _quiz(ends[quiz], begun[quiz] - {end.sitting for end in ends[quiz]})
        for quiz in sorted({*ends, *begun})
    }


def _quiz(ends: list[Attempt], left: set[str]) -> QuizScore:
    counting = [end for end in ends if end.counts]
    passed = [number for number, end in enumerate(counting, 1) if end.passed]
    return QuizScore(
        counting[0].mark if counting else None,
        1 in passed,
        next((number for number in passed if number > 1), None),
        len(counting),
        len(ends) - len(counting),
        len(left),
    )


def exercises(attempts: Iterable[Attempt]) -> dict[str, WalkScore]:
    ends: dict[str, list[Attempt]] = defaultdict(list)
    begun: dict[str, dict[str, list[Attempt]]] = defaultdict(lambda: defaultdict(list))
    for one in attempts:
        exercise = one.id.partition("/")[0]
        if one.kind == "walk":
            ends[exercise].append(one)
        elif one.kind == "step" and one.sitting:
            begun[exercise][one.sitting].append(one)
    return {name: _exercise(ends[name], begun[name]) for name in sorted({*ends, *begun})}


def _exercise(ends: list[Attempt], begun: Mapping[str, list[Attempt]]) -> WalkScore:
    ended = {end.sitting for end in ends}
    left = [answers for sitting, answers in begun.items() if sitting not in ended]
    harms = [end.harm for end in ends]
    harms += [max((one.harm or "none" for one in answers), key=TOLD.index) for answers in left]
    unsafe = [bool(end.unasked) for end in ends] + [any(one.unasked for one in answers) for answers in left]
    return WalkScore(
        len(ends),
        sum(end.is_good for end in ends),
        len(left),
        harms.count("minor"),
        harms.count("serious"),
        sum(unsafe),
    )
