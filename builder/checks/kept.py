"""What the checks found, kept for as long as the same goes into them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from builder.problems import Problem, severity
from builder.shelf import KEPT_FROM, Shelf, digest
from builder.source import Loaded

from .registry import check


def check_kept(
    course_dir: Path, loaded: Loaded, today: str | None = None, shelf: Shelf | None = None
) -> tuple[Problem, ...]:
    """As `check`, of the course in a folder: what an earlier run found where nothing has changed since.

    Without a `shelf` a large course gets one of its own.
    """
    if shelf is None and len(loaded.course.cases) < KEPT_FROM:
        return check(loaded, today)
    # A build asks for no day, so that what it finds is good on every day and stands apart.
    shelf = shelf or Shelf(course_dir, "build" if today is None else "check")
    files = (part for name in sorted(loaded.texts) for part in (name, loaded.texts[name]))
    about = (str(today), repr(loaded.problems), repr(loaded.attached))
    seen = (course_dir.resolve().name, *about, *files)
    made_from = digest(*(part.encode("utf-8", "surrogatepass") for part in seen))
    kept = shelf.get("problems", made_from, lambda: [_fields(one) for one in check(loaded, today)])
    shelf.save()
    return tuple(Problem(code, severity(code), *fields) for code, *fields in kept)


def _fields(one: Problem) -> list[Any]:
    place = (one.file, one.line, one.column)
    return [one.code, one.subject, *place, one.message, one.hint, one.example, one.region]
