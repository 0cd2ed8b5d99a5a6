"""How long learners took, from the records that they handed over: what a course can state as contact time."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from statistics import median, quantiles

from .record import Attempt, Record

FEW = 20
"""Times below which a median says little."""
LONGEST = 30 * 60 * 1000
"""Milliseconds above which somebody has left the page open: half an hour for one answer. Our own choice."""


@dataclass(frozen=True, slots=True)
class Taken:
    """Minutes that something took, in the middle, with the quartiles around it."""

    middle: float
    low: float
    high: float
    number: int
    """How often it was timed."""


def taken(records: Iterable[Record]) -> tuple[Taken | None, Taken | None]:
    """What a question took, and what a client took in an exercise; None where nothing was timed.

    First answers alone count, in each record. A client is timed by the sum of the steps that were answered.
    """
    questions: list[int] = []
    walks: list[int] = []
    for record in records:
        firsts: dict[str, Attempt] = {}
        for attempt in sorted(record.attempts, key=lambda one: one.at):
            if attempt.ms is not None and 0 < attempt.ms <= LONGEST:
                firsts.setdefault(f"{attempt.kind} {attempt.id}", attempt)
        steps: dict[str, int] = defaultdict(int)
        for one in firsts.values():
            if one.kind == "question":
                questions.append(one.ms or 0)
            elif one.kind == "step":
                steps[one.id.rpartition("/")[0]] += one.ms or 0
        walks += steps.values()
    return _taken(questions), _taken(walks)


def _taken(times: list[int]) -> Taken | None:
    if not times:
        return None
    low, _, high = quantiles(times, n=4, method="inclusive") if len(times) > 1 else (times[0],) * 3
    return Taken(median(times) / 60_000, low / 60_000, high / 60_000, len(times))
