"""A learner's record. The browser's `web/record.js` keeps attempts by the same rules."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import groupby, pairwise
from operator import attrgetter
from typing import Literal, NamedTuple

from builder.course.origin import nothing
from builder.decide.harm import Told

Kind = Literal["question", "step", "walk", "quiz"]
Mode = Literal["practise", "today", "quiz", "test"]
ANSWERS: tuple[Kind, ...] = ("question", "step")
"""Single answers; a walk or quiz is a whole sitting that came to its end."""


class Attempt(NamedTuple):
    """One answer to a question or step, or the end of a whole walk or quiz.

    A tuple, since a team hands over hundreds of thousands: a frozen dataclass takes four times as long to
    make and to compare.
    """

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
    unasked: bool | None = None
    """Of a step: the answer would do serious harm to somebody who answers alike to all that was asked. Of a
    walk: such an answer stood at its end."""
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

    @property
    def is_early(self) -> bool:
        """Right before it was known: neither a sign of skill nor of the want of it."""
        return self.right is True and self.known is False


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


def ordered(attempts: Iterable[Attempt]) -> tuple[Attempt, ...]:
    """Attempts by time, the same one only once, with each first one and each quiz that counts marked.

    What a device says is none stays none: it may know of earlier ones that are not among these.
    """
    tried: set[tuple[str, str]] = set()
    seen: dict[tuple[str, int], str | None] = {}
    found = []
    for one in _once(by_time(attempts)):
        thing, unit = (one.kind, one.id), (one.unit or "", one.client or "")
        first = one.first and thing not in tried and not (one.unit and unit in tried)
        tried |= {thing, unit} if one.unit else {thing}
        counts = one.counts
        draw = (one.quiz, one.draw) if one.quiz and one.draw is not None else None
        if draw:
            is_new = seen.setdefault(draw, one.sitting) == one.sitting
        if one.kind == "quiz":
            counts = counts and draw is not None and is_new
            if draw:
                seen[draw] = _OVER
        found.append(_marked(one, first, counts))
    return tuple(found)


_MARKS = Attempt._fields.index("first")
"""Where what is known only beside other attempts begins."""


_OVER = "over"
"""In place of a sitting's name: the draw was answered to its end."""


def _marked(one: Attempt, first: bool, counts: bool) -> Attempt:
    same = one.first == first and one.counts == counts
    return one if same else one._replace(first=first, counts=counts)


def _once(attempts: Iterable[Attempt]) -> Iterator[Attempt]:
    """Without repeats, of which one says no first where any does. They stand beside each other."""
    waiting: Attempt | None = None
    for one in attempts:
        if waiting is None:
            waiting = one
        elif one[:_MARKS] == waiting[:_MARKS]:
            waiting = _marked(one, one.first and waiting.first, one.counts and waiting.counts)
        else:
            yield waiting
            waiting = one
    if waiting is not None:
        yield waiting


def by_time(attempts: Iterable[Attempt]) -> list[Attempt]:
    """By time, and beyond it, so that an order holds even among attempts of the same millisecond."""
    some = sorted(attempts, key=_order)
    if all(one.at != other.at for one, other in pairwise(some)):
        return some
    return [one for _, alike in groupby(some, key=_order) for one in sorted(alike, key=repr)]


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
    if not moved:
        return ordered(every)
    walks = {one.sitting for one in moved if one.kind == "step" and one.sitting}
    return ordered(
        one._replace(passed=False) if one.kind == "walk" and one.sitting in walks else one
        for one in every
        if one not in moved
    )


_order = attrgetter("at", "kind", "id", "digest", "mark")
