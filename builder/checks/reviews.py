"""Everything of a course that can be reviewed, with its review."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from builder.course import Caution, Course, Drill, Exercise, Family, Origin, Question, Review, Table

Part = Caution | Drill | Table | Exercise | Question


@dataclass(frozen=True, slots=True)
class Reviewed:
    subject: str
    """Kind and name, for example `caution:heel_pain`."""
    part: Part

    @property
    def what(self) -> str:
        """In words, for example `the caution heel_pain`."""
        return f"the {self.subject.replace(':', ' ', 1)}"

    @property
    def review(self) -> Review | None:
        return self.part.reviewed

    @property
    def origin(self) -> Origin:
        """Of what is written under `reviewed`."""
        return self.part.origin.below("reviewed")

    @property
    def is_needed(self) -> bool:
        """Whether it can hurt people until a clinician has read it."""
        return isinstance(self.part, Caution | Drill)


def reviewed(course: Course) -> Iterator[Reviewed]:
    """Every part of a course that can be reviewed, by kind, in file order."""
    kinds: Mapping[str, Mapping[str, Part | Family]] = {
        "caution": course.cautions,
        "drill": course.drills,
        "table": course.tables,
        "exercise": course.exercises,
        "question": course.questions,
    }
    for kind, parts in kinds.items():
        for name, part in parts.items():
            if not isinstance(part, Family):
                yield Reviewed(f"{kind}:{name}", part)


def is_stale(part: Part) -> bool:
    """Whether something else stands there than was reviewed; a review that noted no digest never is stale."""
    return part.reviewed is not None and part.reviewed.text not in (None, part.digest)


def awaits_clinician(part: Part) -> bool:
    """Whether no clinician has reviewed it: nobody has, or only somebody who is none."""
    return part.reviewed is None or not part.reviewed.by_clinician


def is_day(text: str) -> bool:
    """Whether a text is a day written as YYYY-MM-DD."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def unreviewed(course: Course) -> str:
    """Whether `all` or `some` of what a clinician should review has not been; empty for none."""
    awaiting = [awaits_clinician(one.part) for one in reviewed(course) if one.is_needed]
    return ("all" if all(awaiting) else "some") if any(awaiting) else ""
