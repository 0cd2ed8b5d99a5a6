"""A learner's record. The browser's `web/record.js` keeps attempts by the same rules."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from builder.course import Harm


@dataclass(frozen=True, slots=True)
class Attempt:
    """One answer to a question or step, or one whole walk or quiz."""

    kind: Literal["question", "walk", "step", "quiz"]
    id: str
    digest: str
    at: str
    """ISO 8601 in UTC, always of the same length, so that text sorts by time."""
    objective: str
    mark: float
    first: bool = False
    """The first attempt at this thing as it stood."""
    quiz: str | None = None
    seed: int | None = None
    certainty: int | None = None
    harm: Harm | None = None
    held: bool | None = None
    """Of a whole walk or quiz, by the pass mark of its time."""

    @property
    def holds(self) -> bool:
        """Of a question or step, whether it has the full mark."""
        return self.mark == 1 if self.held is None else self.held


@dataclass(frozen=True, slots=True)
class Record:
    course: str
    attempts: tuple[Attempt, ...]
    """By time."""
    learner: str = ""
    version: str = ""
    build: str = ""
    unread: tuple[int, ...] = ()
    """Places in the file, from 1 on, of attempts that cannot be read; they are left out."""


def ordered(attempts: Iterable[Attempt]) -> tuple[Attempt, ...]:
    """Attempts by time, the same one only once, each first one marked."""
    unmarked = {replace(attempt, first=False) for attempt in attempts}
    tried: set[tuple[str, str, str]] = set()
    found = []
    for attempt in sorted(unmarked, key=_order):
        thing = (attempt.kind, attempt.id, attempt.digest)
        found.append(replace(attempt, first=thing not in tried))
        tried.add(thing)
    return tuple(found)


def merge(records: Iterable[Record]) -> tuple[Attempt, ...]:
    """The attempts of several records as one list: nothing lost, nothing double."""
    return ordered(attempt for record in records for attempt in record.attempts)


def _order(attempt: Attempt) -> tuple[str, str, str, str, float, str]:
    # Beyond the time, so that an order holds even among attempts of the same millisecond.
    return (attempt.at, attempt.kind, attempt.id, attempt.digest, attempt.mark, repr(attempt))
