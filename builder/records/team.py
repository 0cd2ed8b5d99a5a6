"""What the records of a whole team come to, for the owner who answers for it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, Protocol

from .record import ANSWERS, Attempt
from .summary import VERY_SURE, Learner
from .task import Task, task_of

Why = Literal["unsafe", "not_stopped", "unasked", "sure", "could_harm", "wrong"]
"""Why something is to be practised, the gravest first: an unsafe answer, a client who was to be sent on and
was not, one that was unsafe for want of asking, very sure and wrong, an answer that may do harm, a wrong one.
"""
GRAVEST: tuple[Why, ...] = ("unsafe", "not_stopped", "unasked", "sure", "could_harm", "wrong")
TEACH = 5
"""What is named to teach next."""
HELPS = 3
"""What is named to each coach, and the clients with whom each can be practised."""
MENDED = 2
"""So many clients answered right since, and nothing unsafe: it need not be named any more."""


class Known(Protocol):
    """What the course says; see `facts.py`."""

    def choice(self, attempt: Attempt) -> tuple[str, str, str] | None: ...

    def clients_of(self, thing: str) -> tuple[str, ...]: ...


@dataclass(frozen=True, slots=True)
class Help:
    """Something that would help a coach most."""

    thing: str
    """A unit, or `caution:name` where answers broke one."""
    why: Why
    """The gravest reason."""
    wrong: int
    """Answers about it that were wrong, or unsafe for want of asking."""
    since: int
    """Clients about whom it was answered right after the last wrong answer."""
    clients: tuple[str, ...]
    """To practise with: those not met yet first, then those answered wrong."""


@dataclass(frozen=True, slots=True)
class ToTeach:
    """Something that several coaches have wrong."""

    thing: str
    wrong: int
    """Coaches with a wrong first answer about it."""
    tried: int
    """Coaches with any first answer about it."""
    unsafe: int
    """Coaches with an unsafe answer about it."""
    clients: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Decided:
    """One decision about one client, and who chose what at first."""

    table: str
    client: str
    chosen: Mapping[str, tuple[int, ...]]
    """Outcome to the places of the coaches who chose it; an outcome that nobody chose is left out."""

    @property
    def coaches(self) -> int:
        return sum(map(len, self.chosen.values()))


@dataclass(frozen=True, slots=True)
class Asked:
    """A task, and what became of it."""

    task: Task
    done: tuple[tuple[int, Attempt], ...]
    """The place of each coach who came to its end, with the first time they did."""


def helps(learner: Learner, known: Known) -> tuple[Help, ...]:
    """What would help a coach most: at most three things, the gravest first, then the most often wrong."""
    attempts = [one for one in learner.attempts if one.kind in ANSWERS]
    wrong: dict[str, list[Attempt]] = defaultdict(list)
    for one in attempts:
        for thing in (one.unit,) if one.right and one.unasked and one.unit else _things(one):
            wrong[thing].append(one)
    met = {one.client for one in attempts if one.client}
    right: dict[str, list[Attempt]] = defaultdict(list)
    for one in attempts:
        if one.right and one.unit and not one.is_early:
            right[one.unit].append(one)
    found = []
    for thing, missed in wrong.items():
        since = _right_since(right, missed)
        why = min(map(_why, missed), key=GRAVEST.index)
        if len(since) < MENDED or why == "unsafe":
            failed = {one.client for one in missed}
            order = sorted(known.clients_of(thing), key=lambda name: (name in met, name not in failed))
            found.append(Help(thing, why, len(missed), len(since), tuple(order[:HELPS])))
    found.sort(key=lambda one: (one.since >= MENDED, GRAVEST.index(one.why), -one.wrong, one.thing))
    return tuple(found[:HELPS])


def to_teach(learners: Sequence[Learner], known: Known, most: int) -> tuple[ToTeach, ...]:
    """What several coaches have wrong: unsafe for most of them first, then wrong at first for most."""
    tried: dict[str, set[int]] = defaultdict(set)
    wrong: dict[str, set[int]] = defaultdict(set)
    unsafe: dict[str, set[int]] = defaultdict(set)
    for place, learner in enumerate(learners):
        for one in learner.attempts:
            if one.kind not in ANSWERS:
                continue
            if one.unit and one.first:
                tried[one.unit].add(place)
            for thing in _things(one):
                if one.harm == "serious":
                    unsafe[thing].add(place)
                if one.first:
                    wrong[thing].add(place)
    for thing in {*wrong, *unsafe}:
        if thing.startswith("caution:"):  # whoever has met somebody whom it is about
            about = set(known.clients_of(thing))
            tried[thing] = {
                place
                for place, learner in enumerate(learners)
                if any(one.client in about for one in learner.attempts)
            }
    several = [thing for thing in {**wrong, **unsafe} if len(wrong[thing] | unsafe[thing]) > 1]
    several.sort(key=lambda thing: (-len(unsafe[thing]), -len(wrong[thing]), thing))
    return tuple(
        ToTeach(
            thing,
            len(wrong[thing]),
            len(tried[thing]),
            len(unsafe[thing]),
            known.clients_of(thing)[:HELPS],
        )
        for thing in several[:most]
    )


def decided(learners: Sequence[Learner], known: Known) -> tuple[Decided, ...]:
    """Every decision about a client that some coach has made, by their first answer; by table and client."""
    found: dict[tuple[str, str], dict[str, list[int]]] = defaultdict(lambda: defaultdict(list))
    for place, learner in enumerate(learners):
        told: set[tuple[str, str]] = set()
        for one in learner.attempts:
            is_told = one.kind in ANSWERS and one.first and not one.is_early
            choice = known.choice(one) if is_told else None
            if choice is None:
                continue
            table, client, outcome = choice
            if (table, client) not in told:
                told.add((table, client))
                found[table, client][outcome].append(place)
    return tuple(
        Decided(table, client, {outcome: tuple(places) for outcome, places in sorted(chosen.items())})
        for (table, client), chosen in sorted(found.items())
    )


def unsafe_by_caution(learners: Sequence[Learner]) -> Mapping[str, tuple[tuple[int, Attempt], ...]]:
    """Caution to the unsafe answers that broke it, with the place of the coach; the empty name holds those
    that broke none and yet sent nobody on. Broken by most coaches first."""
    found: dict[str, list[tuple[int, Attempt]]] = defaultdict(list)
    for place, learner in enumerate(learners):
        for one in learner.serious:
            for name in one.breaks or ("",):
                found[name].append((place, one))

    def order(name: str) -> tuple[int, int, str]:
        return -len({place for place, _ in found[name]}), -len(found[name]), name

    return {name: tuple(found[name]) for name in sorted(found, key=order)}


def tasks(learners: Sequence[Learner]) -> tuple[Asked, ...]:
    """Every task that some record tells of, the latest day first."""
    found: dict[Task, dict[int, Attempt]] = defaultdict(dict)
    for place, learner in enumerate(learners):
        for one in learner.attempts:
            task = task_of(one.task)
            if task is None:
                continue
            done = found[task]
            if one.kind == "quiz" and one.id == task.quiz and one.draw == task.draw:
                done.setdefault(place, one)
    order = sorted(found, key=lambda task: (task.until, task.quiz, task.draw), reverse=True)
    return tuple(Asked(task, tuple(sorted(found[task].items(), key=lambda one: one[0]))) for task in order)


def first_sitting(learner: Learner, quiz: str) -> Attempt | None:
    """The end of the first sitting that counts."""
    ends = (one for one in learner.attempts if one.kind == "quiz" and one.id == quiz and one.counts)
    return next(ends, None)


def _things(attempt: Attempt) -> Iterable[str]:
    """What a wrong answer is about: the cautions that it breaks where that may be serious, else its unit."""
    if attempt.right or attempt.kind not in ANSWERS:
        return ()
    if attempt.harm in ("serious", "arguable") and attempt.breaks:
        return tuple(f"caution:{name}" for name in attempt.breaks)
    return (attempt.unit,) if attempt.unit else ()


def _why(attempt: Attempt) -> Why:
    if attempt.harm == "serious":
        return "unsafe"
    if attempt.stopped is False:
        return "not_stopped"
    if attempt.unasked:
        return "unasked"
    if attempt.sure == VERY_SURE:
        return "sure"
    return "could_harm" if attempt.harm in ("arguable", "minor") else "wrong"


def _right_since(right: Mapping[str, Sequence[Attempt]], missed: Sequence[Attempt]) -> set[str]:
    """Clients about whom the same was answered right after the last wrong answer; what is about no client
    counts by its id. `right` holds right answers by their unit."""
    units, last = {one.unit for one in missed if one.unit}, missed[-1].at
    return {one.client or one.id for unit in units for one in right.get(unit, ()) if one.at > last}
