"""Everything of a course that a clinician should review."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from builder.course import Course, Origin, Review


@dataclass(frozen=True, slots=True)
class Reviewed:
    what: str
    """In words, for example `the caution heel_pain`."""
    subject: str
    review: Review | None
    origin: Origin
    """Of what is written under `reviewed`, or of the thing itself."""


def reviewed(course: Course) -> Iterator[Reviewed]:
    """Every caution and drill with its review."""
    for kind, things in (("caution", course.cautions), ("drill", course.drills)):
        for name, thing in things.items():
            yield Reviewed(
                f"the {kind} {name}", f"{kind}:{name}", thing.reviewed, thing.origin.below("reviewed")
            )


def is_day(text: str) -> bool:
    """Whether a text is a day written as YYYY-MM-DD."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False
