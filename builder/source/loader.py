"""A course folder, read into the model."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path, PurePosixPath
from typing import Any

from builder.course import AGE, About, Course, Edition, Lesson, Origin, Place, fixed, nothing
from builder.problems import Problem
from builder.problems.codes import severity

from .age import with_age
from .attached import is_inert
from .contents import Content, Unit, content
from .editions import age_of, edition
from .folder import Found, Listing, NoCourse, listing, read_bytes
from .kinds import COURSE, KINDS, MEASURE, TABLE, Kind
from .lessons import bound_fault, form_fault, lesson_title
from .marks import Marks
from .shapes import BUILD
from .shapes.course import ABOUT
from .texts import ReadFault, control_fault, decode

__all__ = ["Loaded", "NoCourse", "load"]


@dataclass(frozen=True, slots=True)
class Loaded:
    """Everything that loaded, every problem of form, and the text of every file, by name."""

    course: Course
    problems: tuple[Problem, ...]
    """In file order."""
    texts: Mapping[str, str]
    left_out: Mapping[str, frozenset[str]] = field(default_factory=nothing)
    """By kind, the names of what is written but did not load, so that nobody calls them missing."""
    attached: tuple[str, ...] = ()
    """Files beside the lessons that are none, such as pictures."""
    lesson_files: Mapping[str, Path] = field(default_factory=nothing)
    """Every file below lessons/ that may go to the site, by its name; the name's letters are composed."""


ROOMS = {
    "measure": "measures",
    "objective": "objectives",
    "source": "sources",
    "term": "terms",
    "table": "tables",
    "caution": "cautions",
    "case": "cases",
    "exercise": "exercises",
    "question": "questions",
    "quiz": "quizzes",
    "position": "positions",
    "drill": "drills",
    "wording": "wording",
}
"""Kind to the field of `Course` that holds it."""
_UNREADABLE = ReadFault((), 1, 1, "The file cannot be opened.", "Check who may read it.")


def load(course_dir: Path) -> Loaded:
    """Reads a course folder. Whatever is wrong with its content is a problem and stays out of the course.

    Raises NoCourse where there is no course.yml.
    """
    return _Loader(course_dir).loaded()


class _Loader:
    def __init__(self, course_dir: Path) -> None:
        self.listing: Listing = listing(course_dir)
        self.folder = course_dir.resolve().name
        self.problems: list[Problem] = []
        self.texts: dict[str, str] = {}
        self.left_out: dict[str, set[str]] = {kind.name: set() for kind in KINDS}
        self.about: About | None = None
        self.things: dict[str, dict[str, Any]] = {kind: {} for kind in ROOMS}
        self.first: dict[tuple[str, str], tuple[Kind, Origin]] = {}

    def loaded(self) -> Loaded:
        for found in self.listing.files:
            self._take(found)
        lessons = tuple(self._lesson(name, path) for name, path in self.listing.lessons)
        for name, path in self.listing.attached:
            self._attached(name, path)
        course_file = next(found.name for found in self.listing.files if found.kind is COURSE)
        names = [*(one.name for one in self.listing.files), *(one.name for one in self.listing.refused)]
        if not any(map(MEASURE.holds, names)):
            self._problem("missing-reference", f"file:{MEASURE.where}", course_file, 1, 1,
                          f"The course has no {MEASURE.where}.",
                          "Write one; it says what can be measured or asked.")  # fmt: skip
        for item in self.listing.ignored:
            self._problem("file-ignored", f"file:{item.name}", item.name, 1, 1, item.message, item.hint)
        kept = tuple(self._editions())
        for one in self.listing.refused:
            self._problem("file-refused", f"file:{one.name}", one.name, 1, 1, one.message, one.hint)
        name = self.folder
        course = Course(
            about=self.about or About(name=name, title=name, origin=Origin(course_file)),
            lessons=lessons,
            editions=tuple(sorted(kept, key=age_of)),
            **{ROOMS[kind]: fixed(things) for kind, things in self.things.items()},
        )
        age_unread = any(AGE in self.left_out[kind] for kind in (MEASURE.name, TABLE.name))
        return Loaded(
            course if age_unread else with_age(course),
            tuple(sorted(self.problems, key=lambda problem: problem.order)),
            fixed(self.texts),
            fixed({kind: frozenset(names) for kind, names in self.left_out.items()}),
            tuple(name for name, _ in self.listing.attached),
            fixed(dict((*self.listing.lessons, *self.listing.attached))),
        )

    def _text(self, name: str, path: Path) -> tuple[str, ReadFault | None]:
        try:
            text, fault = decode(read_bytes(path))
        except OSError:
            text, fault = "", _UNREADABLE
        self.texts[name] = text
        return text, fault

    def _editions(self) -> Iterator[Edition]:
        for name, path in self.listing.editions:
            try:
                yield edition(PurePosixPath(name).name, read_bytes(path))
            except (OSError, ValueError):
                message = "This file is not read: it is no edition of the course."
                hint = "Only `casetrue edition` writes here. Move the file elsewhere, or delete it."
                self._problem("file-ignored", f"file:{name}", name, 1, 1, message, hint)

    def _lesson(self, name: str, path: Path) -> Lesson:
        text, fault = self._text(name, path)
        found = (
            [("yaml", fault)] if fault else [("yaml", form_fault(text)), ("lesson-bound", bound_fault(text))]
        )
        for code, one in found:
            if one is not None:
                self._fault(code, name, one)
                # Nobody reads on where Markdown cannot be trusted with it.
                lines = text.split("\n")[: one.line]
                text = "\n".join((*lines[:-1], lines[-1][: one.column + 100]))
        self.texts[name] = text
        return Lesson(name, lesson_title(text, name))

    def _attached(self, name: str, path: Path) -> None:
        if is_inert(name):
            if not os.access(path, os.R_OK):
                self._fault("file-refused", name, _UNREADABLE)
            return
        text, fault = self._text(name, path)
        if fault or control_fault(text):
            message = "The program cannot look through a file of this kind, so it is not published."
            hint = "Give it as a picture, sound, film, PDF or `.zip`, or delete it."
            self._fault("file-refused", name, ReadFault((), 1, 1, message, hint))
            self.texts[name] = ""

    def _take(self, found: Found) -> None:
        kind = found.kind
        text, fault = self._text(found.name, found.path)
        read, built = _built(kind, found.name, text, fault, self.folder)
        self.problems.extend(read.problems)
        self.left_out[kind.name].update(read.left_out)
        for name, origin, thing in built:
            if kind is COURSE:
                self._take_about(thing)
            elif not self._is_duplicate(kind, name, origin):
                self.things[kind.name][name] = thing

    def _take_about(self, about: About) -> None:
        if self.about is not None:
            file = about.origin.file
            message = f"This file is not used: {self.about.origin.file} describes the course already."
            self._problem("file-ignored", f"file:{file}", file, 1, 1, message, "Keep one.")
        else:
            self.about = about

    def _is_duplicate(self, kind: Kind, name: str, origin: Origin) -> bool:
        # Measures and tables are named side by side as inputs, so they share their names.
        clan = MEASURE.name if kind is TABLE else kind.name
        first_kind, first = self.first.setdefault((clan, name), (kind, origin))
        if first is origin:
            return False
        there, here = _name_place(first_kind, first), _name_place(kind, origin)
        self._problem("duplicate-name", f"{kind.name}:{name}", here.file, here.line, here.column,
                      f"The name `{name}` is taken: it stands in {there.file}, line {there.line}, too.",
                      "Choose another name.")  # fmt: skip
        return True

    def _fault(self, code: str, name: str, fault: ReadFault) -> None:
        self._problem(code, f"file:{name}", name, fault.line, fault.column, fault.message, fault.hint)

    def _problem(
        self, code: str, subject: str, file: str, line: int, column: int, message: str, hint: str = ""
    ) -> None:
        self.problems.append(Problem(code, severity(code), subject, file, line, column, message, hint))


@lru_cache(maxsize=1 << 14)  # while serving, only what has changed is read again
def _built(
    kind: Kind, file: str, text: str, fault: ReadFault | None, folder: str
) -> tuple[Content, tuple[tuple[str, Origin, Any], ...]]:
    """What a file of a course in a folder of that name holds, and each thing with its name and origin. The
    same file gives the same things."""
    read, marks = content(kind, file, text, fault), Marks(text)
    origins = ((unit, Origin(file, marks, unit.path)) for unit in read.units)
    return read, tuple(
        (unit.name, origin, _about(unit, origin, folder) if kind is COURSE
         else BUILD[kind.name](unit.value, origin, unit.name))
        for unit, origin in origins
    )  # fmt: skip


def _about(unit: Unit, origin: Origin, folder: str) -> About:
    value = unit.value if isinstance(unit.value, dict) else {}
    return ABOUT.build({"course": folder, "title": value.get("course", folder), **value}, origin)


def _name_place(kind: Kind, origin: Origin) -> Place:
    return origin.at(kind.name_key) if kind.name_key else origin.at()
