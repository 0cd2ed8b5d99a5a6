"""Whether a site still is what a build would write, so that there is nothing to do.

It is, where nothing has changed that a build reads (every file in the course's folder, this program, the
libraries beside it) and every file of the site is as the build left it. A course with its own mkdocs.yml
is always built: what its plugins read is theirs to know.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from builder.shelf import Shelf, digest

from .hosting import own_configuration


class Written:
    """What is known of one site. To be made before the course is read, so that no later change is missed."""

    def __init__(self, course_dir: Path, out: Path, folder: Path | None = None) -> None:
        """`folder` is the user's cache folder."""
        self._out = out
        self._shelf: Shelf | None = None
        if course_dir.is_dir() and own_configuration(course_dir) is None:
            course = course_dir.resolve()
            self._read = digest(os.fsencode(course.name), *_contents(course, out)).encode()
            self._shelf = Shelf(course_dir, "site", folder=folder)

    def told(self) -> str | None:
        """What the build had to tell, where the site still is what it wrote; else None."""
        if self._shelf is None or not self._out.is_dir():
            return None
        told: str | None = self._shelf.get(str(self._out), self._state(), lambda: None)
        return told

    def keep(self, told: str) -> None:
        """To be called once the site is written."""
        if self._shelf is not None:
            self._shelf.get(str(self._out), self._state(), lambda: told)
            self._shelf.save()

    def _state(self) -> str:
        return digest(self._read, *_stamps(self._out))


def _contents(course: Path, out: Path) -> Iterator[bytes]:
    """Name and content of every file that a build may read; hidden ones it never does."""
    for path in _files(course, out):
        yield os.fsencode(path.relative_to(course))
        yield path.read_bytes() if path.is_file() else b""


def _stamps(out: Path) -> Iterator[bytes]:
    """Name, size and time of every file of the site."""
    for path in _files(out):
        stat = path.stat()
        yield os.fsencode(path.relative_to(out))
        yield f"{stat.st_size} {stat.st_mtime_ns}".encode()


def _files(root: Path, without: Path | None = None) -> Iterator[Path]:
    entered: set[str] = set()
    for folder, folders, names in os.walk(root, followlinks=True):
        real = os.path.realpath(folder)
        again = real in entered or Path(real) == without
        entered.add(real)
        folders[:] = [] if again else sorted(name for name in folders if not name.startswith("."))
        yield from () if again else (Path(folder, name) for name in sorted(names) if not name.startswith("."))
