"""Whether a site still is what a build would write, so that there is nothing to do.

It is, where nothing has changed that a build reads (every file in the course's folder, this program, the
libraries beside it) and every file of the site is as the build left it. A course with its own mkdocs.yml
is always built: what its plugins read is theirs to know.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from platformdirs import user_cache_path

from builder.site.cache import digest, program, read_sealed, write_sealed

from .hosting import own_configuration

MOST_FILES = 40
"""Files in the cache folder; the oldest beyond that are deleted."""


class Written:
    """What is known of one site. To be made before the course is read, so that no later change is missed."""

    def __init__(self, course_dir: Path, out: Path, folder: Path | None = None) -> None:
        """`folder` is the user's cache folder."""
        self._out = out
        self._file: Path | None = None
        if course_dir.is_dir() and own_configuration(course_dir) is None:
            course = course_dir.resolve()
            about = (program().encode(), os.fsencode(course), os.fsencode(out))
            self._read = digest(*about, *_contents(course, out)).encode()
            folder = folder or user_cache_path("casetrue", appauthor=False)
            if (
                folder.is_absolute()
            ):  # else the user has no home, and it would lead into whatever folder this is
                self._file = folder / f"site-{digest(os.fsencode(out))}"

    def told(self) -> str | None:
        """What the build had to tell, where the site still is what it wrote; else None."""
        if self._file is None or not self._out.is_dir():
            return None
        told = read_sealed(self._file, self._state())
        return None if told is None else told.decode()

    def keep(self, told: str) -> None:
        """To be called once the site is written."""
        if self._file is not None:
            write_sealed(self._file, told.encode(), self._state())
            _prune(self._file.parent)

    def _state(self) -> bytes:
        return digest(self._read, *_stamps(self._out)).encode()


def _prune(folder: Path) -> None:
    """Keeps the newest `MOST_FILES` of the cache folder."""
    with suppress(OSError):
        files = sorted(folder.iterdir(), key=lambda path: path.stat().st_mtime, reverse=True)
        for path in files[MOST_FILES:]:
            path.unlink(missing_ok=True)


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
