"""Bodies kept from one build to the next, so that a build makes anew only what a change can have touched.

A client's body rests on the client's own file and on everything in the course that is no client; on this
program, its templates and words; and on what its maker names beside these. All of that is in the hash under
which it is kept. A damaged or missing store is as good as an empty one.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path

from builder.course import Case, Course
from builder.source.shelf import Shelf, code_digest, digest
from builder.words import Words

KEPT_FROM = 50
"""Clients from which on keeping pays."""
_CODE = (".py", ".j2", ".json", ".po")


class Kept:
    """The bodies of one course. Without a shelf everything is made anew."""

    def __init__(
        self, course: Course, texts: Mapping[str, str], words: Words, shelf: Shelf | None = None
    ) -> None:
        """`texts` are the course's files by their path below its folder."""
        self._texts = texts
        self._shelf = shelf
        of_clients = {case.origin.file for case in course.cases.values()}
        rest = [f"{file}\0{texts[file]}" for file in sorted(set(texts) - of_clients)]
        self._rest = digest(words.language.encode(), repr(course.lessons).encode(), *map(_bytes, rest))

    def body(self, name: str, case: Case, beside: object, make: Callable[[], str]) -> str:
        """What `make` returns, or returned when the same went into it. `beside` is what the body shows of
        other clients; its `repr` must tell all of it."""
        if self._shelf is None:
            return make()
        own = self._texts.get(case.origin.file, "")
        made_from = digest(self._rest.encode(), case.name.encode(), _bytes(own), _bytes(repr(beside)))
        return str(self._shelf.get(name, made_from, make))

    def save(self) -> None:
        """Keeps what this build asked for, and forgets the rest."""
        if self._shelf is not None:
            self._shelf.save()


def shelf_for(course_dir: Path, course: Course, folder: Path | None = None) -> Shelf | None:
    """The store of a course that is large enough for one. `folder` is the user's cache folder."""
    if len(course.cases) < KEPT_FROM:
        return None
    return Shelf(course_dir, "pages", _code(), folder=folder)


@cache
def _code() -> str:
    """The hash of the whole program: nearly all of it goes into a page."""
    package = Path(__file__).parents[1]
    return code_digest(path for path in package.rglob("*") if path.suffix in _CODE)


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "surrogatepass")
