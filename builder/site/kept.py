"""Pages kept from one build to the next, so that a build makes anew only what a change can have touched.

What is made of some clients rests on the files that hold them and on everything in the course that is no
client; on this program, its templates and words; and on what its maker names beside these. All of that is in
the hash under which it is kept. Of a lesson only its address and title count: no page but the lesson itself
shows more. A damaged or missing store is as good as an empty one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cached_property
from pathlib import Path
from typing import Any

from builder.course import Case, Course
from builder.shelf import KEPT_FROM, Shelf, digest
from builder.words import Words

from .page import Asset, Page, Part

Made = Page | Asset


class Kept:
    """What was made of one course. Without a shelf everything is made anew."""

    def __init__(
        self, course: Course, texts: Mapping[str, str], words: Words, shelf: Shelf | None = None
    ) -> None:
        """`texts` are the course's files by their path below its folder."""
        self._course = course
        self._texts = texts
        self._language = words.language
        self._shelf = shelf
        self._files: dict[str, bytes] = {}

    def get(
        self, name: str, make: Callable[[], Any], cases: Iterable[Case] | None = None, beside: object = None
    ) -> Any:
        """What `make` returns, or returned when the same went into it: what JSON can hold.

        It may show nothing of clients other than `cases` (any, where that is None) but what the `repr` of
        `beside` tells.
        """
        if self._shelf is None:
            return make()
        own = self._all_cases if cases is None else self._cases(cases)
        return self._shelf.get(name, digest(self._rest, own, _bytes(repr(beside))), make)

    def pages(
        self,
        name: str,
        make: Callable[[], Iterable[Made]],
        cases: Iterable[Case] | None = None,
        beside: object = None,
    ) -> tuple[Made, ...]:
        """As `get`, for pages and the files beside them."""
        if self._shelf is None:
            return tuple(make())
        kept = self.get(name, lambda: [_fields(made) for made in make()], cases, beside)
        return tuple(_made(fields) for fields in kept)

    @cached_property
    def _rest(self) -> bytes:
        """The hash of all that is no client."""
        of_clients = {case.origin.file for case in self._course.cases.values()}
        of_lessons = {lesson.file for lesson in self._course.lessons}
        files = (self._file(file) for file in sorted(self._texts.keys() - of_clients - of_lessons))
        return digest(self._language.encode(), _bytes(repr(self._course.lessons)), *files).encode()

    @cached_property
    def _all_cases(self) -> bytes:
        return self._cases(self._course.cases.values())

    def _cases(self, cases: Iterable[Case]) -> bytes:
        """The hash of clients by name and file."""
        parts = (part for case in cases for part in (case.name.encode(), self._file(case.origin.file)))
        return digest(*parts).encode()

    def _file(self, name: str) -> bytes:
        """The hash of a file and its name."""
        if name not in self._files:
            self._files[name] = digest(_bytes(name), _bytes(self._texts.get(name, ""))).encode()
        return self._files[name]


def shelf_for(course_dir: Path, course: Course, folder: Path | None = None) -> Shelf | None:
    """The store of a course that is large enough for one. `folder` is the user's cache folder."""
    return Shelf(course_dir, "pages", folder=folder) if len(course.cases) >= KEPT_FROM else None


def _fields(made: Made) -> list[Any]:
    if isinstance(made, Asset):
        return [made.uri, made.text]
    return [
        made.uri,
        made.title,
        made.kind,
        made.body,
        made.description,
        made.searchable,
        made.labels,
        [[part.anchor, part.title, part.text] for part in made.parts],
        made.trail,
        made.source,
        made.grows,
    ]


def _made(fields: list[Any]) -> Made:
    if len(fields) == 2:
        return Asset(*fields)
    uri, title, kind, body, description, searchable, labels, parts, trail, source, grows = fields
    return Page(
        uri,
        title,
        kind,
        body,
        description,
        searchable,
        tuple(labels),
        tuple(Part(*part) for part in parts),
        tuple((above, label) for above, label in trail),
        source,
        grows,
    )


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "surrogatepass")
