"""What an owner asks coaches to do: a quiz, which draw of it, and until which day."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

_TEXT = re.compile(r"([A-Za-z][A-Za-z0-9_-]*)/(0|[1-9][0-9]{0,15})/([0-9]{4}-[0-9]{2}-[0-9]{2})")
_LONGEST = 100


@dataclass(frozen=True, slots=True)
class Task:
    quiz: str
    draw: int
    until: str
    """The last day, as 2026-12-04."""

    @property
    def text(self) -> str:
        """As addresses and records carry it: `first-check/3/2026-12-04`."""
        return f"{self.quiz}/{self.draw}/{self.until}"


def task_of(text: str | None) -> Task | None:
    """The task that a text names; None where it names none."""
    found = _TEXT.fullmatch(text) if text and len(text) <= _LONGEST else None
    if found is None:
        return None
    try:
        date.fromisoformat(found[3])
    except ValueError:
        return None
    return Task(found[1], int(found[2]), found[3])
