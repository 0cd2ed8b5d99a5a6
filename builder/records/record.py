"""A learner's record. The browser's `web/record.js` keeps attempts by the same rules."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Literal

from builder.course.origin import nothing
from builder.decide.harm import Told

Kind = Literal["question", "step", "walk", "quiz"]
Mode = Literal["practise", "today", "quiz", "test"]
ANSWERS: tuple[Kind, ...] = ("question", "step")
"""Single answers; a walk or quiz is a whole sitting that came to its end."""


@dataclass(frozen=True, slots=True)
class Attempt:
    """One answer to a question or step, or the end of a whole walk or quiz."""

    kind: Kind
    id: str
    digest: str
    at: str
    """ISO 8601 in UTC, always of the same length, so that text sorts by time."""
    objective: str
    mark: float
    right: bool | None = None
    """Of an answer: whether it has the full mark."""
    known: bool | None = None
    passed: bool | None = None
    """Of a whole walk or quiz, by the rules of its time."""
    harm: Told | None = None
    """None where nobody knows."""
    breaks: tuple[str, ...] = ()
    unit: str | None = None
    client: str | None = None
    answer: str | tuple[str, ...] | None = None
    stopped: bool | None = None
    """Where the right answer sends the client on: whether the answer does too."""
    key: str | None = None
    """The digest of the right answer of its time."""
    quiz: str | None = None
    draw: int | None = None
    task: str | None = None
    watcher: str | None = None
    edition: str | None = None
    ms: int | None = None
    mode: Mode | None = None
    sitting: str | None = None
    sure: int | None = None
    first: bool = True
    """The first ever at its unit with its client, whatever page asked."""
    counts: bool = True
    """Of a whole quiz: its draw was not seen before."""

    @property
    def is_good(self) -> bool:
        """Right, or passed."""
        return bool(self.right or self.passed)


@dataclass(frozen=True, slots=True)
class Record:
    course: str
    attempts: tuple[Attempt, ...]
    """As they stand in the file, `first` and `counts` as the device says."""
    learner: str = ""
    device: str = ""
    version: str = ""
    build: str = ""
    stopped: Mapping[str, bool] = field(default_factory=nothing)
    """Client to be stopped to whether every first answer did: the word of the learner's device, which knows
    of practice that the copy leaves out."""
    unread: tuple[int, ...] = ()
    """Places in the file, from 1 on, of attempts that cannot be read; they are left out."""


def attempt_of(data: Mapping[str, Any]) -> Attempt:
    """The attempt that a sound entry of a file tells of."""
    parts: dict[str, Any] = {name: tuple(one) if isinstance(one, list) else one for name, one in data.items()}
    return Attempt(**parts)


def ordered(attempts: Iterable[Attempt]) -> tuple[Attempt, ...]:
    """Attempts by time, the same one only once, with each first one and each quiz that counts marked.

    What a device says is none stays none: it may know of earlier ones that are not among these.
    """
    told: dict[Attempt, Attempt] = {}
    for one in attempts:
        same = replace(one, first=True, counts=True)
        known = told.get(same, one)
        told[same] = replace(one, first=one.first and known.first, counts=one.counts and known.counts)
    tried: set[tuple[str, ...]] = set()
    seen: dict[tuple[str | None, int | None], str | None] = {}
    found = []
    for one in sorted(told.values(), key=_order):
        names = {(one.kind, one.id)} | ({(one.unit, one.client or "")} if one.unit else set())
        first = one.first and tried.isdisjoint(names)
        tried |= names
        counts = False
        if one.quiz and one.draw is not None:
            draw = (one.quiz, one.draw)
            counts = one.counts and seen.setdefault(draw, one.sitting) == one.sitting and one.kind == "quiz"
            if one.kind == "quiz":
                seen[draw] = _OVER
        found.append(replace(one, first=first, counts=counts))
    return tuple(found)


_OVER = "over"
"""In place of a sitting's name: the draw was answered to its end."""


def merge(records: Iterable[Record]) -> tuple[Attempt, ...]:
    """The attempts of several records as one list: nothing lost, nothing double."""
    return ordered(attempt for record in records for attempt in record.attempts)


Now = Callable[[Attempt], tuple[str, str] | None]
"""The digests of the right answer to what was tried, and of all of it, as they are now; the second may be
empty. None where the course does not tell."""


def has_changed(attempt: Attempt, now: Now) -> bool:
    """Whether the right answer has changed since. Where its digest was not kept, whether anything has."""
    there = now(attempt)
    if there is None:
        return False
    key, digest = there
    return key != attempt.key if attempt.key else bool(digest) and digest != attempt.digest


def standing(attempts: Iterable[Attempt], now: Now) -> tuple[Attempt, ...]:
    """The attempts that count: without those whose right answer has changed since. A walk with such an answer
    is not passed any more."""
    every = tuple(attempts)
    moved = {one for one in every if has_changed(one, now)}
    walks = {one.sitting for one in moved if one.kind == "step" and one.sitting}
    return ordered(
        replace(one, passed=False) if one.kind == "walk" and one.sitting in walks else one
        for one in every
        if one not in moved
    )


def _order(attempt: Attempt) -> tuple[str, str, str, str, float, str]:
    # Beyond the time, so that an order holds even among attempts of the same millisecond.
    return (attempt.at, attempt.kind, attempt.id, attempt.digest, attempt.mark, repr(attempt))
