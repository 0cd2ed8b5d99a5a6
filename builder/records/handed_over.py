"""All files that were handed over, read: what counts, what does not, and what is odd about it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from .facts import Facts
from .names import same
from .plausible import Reason, implausible
from .reading import LARGEST, Refused, read
from .record import Attempt, Record, has_changed
from .summary import Learner, by_learner


@dataclass(frozen=True, slots=True)
class Bad:
    """A file that is no record of this course."""

    file: str
    reason: str
    message: str


@dataclass(frozen=True, slots=True)
class Doubted:
    """An attempt that cannot be true, and does not count."""

    file: str
    attempt: Attempt
    reason: Reason


@dataclass(frozen=True, slots=True)
class Doubled:
    """A file all of whose attempts stand in another one of the same device."""

    file: str
    other: str
    name: str
    """As the other one has it."""
    is_same: bool
    """Whether both are one learner's, so that the attempts count once."""


@dataclass(frozen=True, slots=True)
class HandedOver:
    """All that was read."""

    learners: tuple[Learner, ...]
    records: tuple[tuple[str, Record], ...]
    """File and what of it counts or has counted: without attempts that cannot be true."""
    bad: tuple[Bad, ...]
    doubted: tuple[Doubted, ...]
    changed: tuple[tuple[str, int], ...]
    """Files and how many of their answers count for nothing, since the right answer has changed."""
    doubled: tuple[Doubled, ...]

    @property
    def shared(self) -> Mapping[str, tuple[Learner, ...]]:
        """Devices, by name, that handed over under several names."""
        names: dict[str, list[Learner]] = defaultdict(list)
        for one in self.learners:
            for device in one.devices:
                names[device].append(one)
        return {device: tuple(some) for device, some in sorted(names.items()) if len(some) > 1}


def read_all(files: Iterable[str], facts: Facts, today: str) -> HandedOver:
    """The files as one. `today` as 2026-06-01: what is later cannot be true. No file raises anything."""
    good: list[tuple[str, Record]] = []
    bad: list[Bad] = []
    doubted: list[Doubted] = []
    changed: list[tuple[str, int]] = []
    for file in sorted(set(files)):
        record = _read(file, facts.course)
        if isinstance(record, Bad):
            bad.append(record)
            continue
        doubts = implausible(record.attempts, facts, today)
        doubted += [Doubted(file, attempt, reason) for attempt, reason in doubts.items()]
        sound = tuple(one for one in record.attempts if one not in doubts) if doubts else record.attempts
        moved = sum(has_changed(one, facts.now) for one in sound)
        changed += [(file, moved)] if moved else []
        good.append((file, replace(record, attempts=sound)))
    return HandedOver(
        by_learner(good, facts.now),
        tuple(good),
        tuple(bad),
        tuple(doubted),
        tuple(changed),
        tuple(_doubled(good)),
    )


def _read(file: str, course: str) -> Record | Bad:
    try:
        with Path(file).open("rb") as opened:
            return read(opened.read(LARGEST + 1), course)
    except Refused as refused:
        return Bad(file, refused.reason, str(refused))
    except IsADirectoryError:
        return Bad(file, "folder", f"that is a folder; name the files in it, as {Path(file) / '*.json'}.")
    except (OSError, ValueError):
        return Bad(file, "file", "the file cannot be opened.")


def _doubled(records: list[tuple[str, Record]]) -> Iterator[Doubled]:
    """Compared are files of one device alone: answers of two people are never the same to the millisecond."""
    of_device: dict[str, list[tuple[str, Record]]] = defaultdict(list)
    for file, record in records:
        if record.attempts:
            of_device[record.device].append((file, record))
    for some in of_device.values():
        sets = [frozenset(record.attempts) for _, record in some] if len(some) > 1 else []
        for place, attempts in enumerate(sets):
            # Of two that are alike the second is told.
            wholes = (
                some[at]
                for at, more in enumerate(sets)
                if attempts < more or (attempts == more and at < place)
            )
            other = next(wholes, None)
            if other is not None:
                (file, record), (whole, theirs) = some[place], other
                is_same = bool(record.learner) and same(record.learner) == same(theirs.learner)
                yield Doubled(file, whole, theirs.learner, is_same)
