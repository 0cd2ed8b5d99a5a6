"""Whether a site still is what a build would write, so that there is nothing to do.

It is, where nothing has changed that a build reads (every file in the course's folder, this program, the
libraries beside it) and every file of the site is as the build left it. A course is always built where a
build may read more: its mkdocs.yml names other plugins, or a link leads out of its folder.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from platformdirs import user_cache_path

from builder.site.cache import digest, program, read_sealed, write_sealed

from .hosting import own_configuration
from .settings import reads_the_course_alone

MOST_FILES = 40
"""Files in the cache folder; the oldest beyond that are deleted."""


class Written:
    """What is known of one site. To be made before the course is read, so that no later change is missed."""

    def __init__(self, course_dir: Path, site: Path, folder: Path | None = None) -> None:
        """`folder` is the user's cache folder."""
        self._site = site
        self._file: Path | None = None
        course = Path(os.path.realpath(course_dir))
        with suppress(OSError, _Unknown):  # what cannot be read, a build tells
            about = (program().encode(), os.fsencode(course), os.fsencode(site))
            self._read = digest(*about, *_contents(course)).encode()
            folder = folder or user_cache_path("casetrue", appauthor=False)
            if (
                folder.is_absolute()
            ):  # else the user has no home, and it would lead into whatever folder this is
                self._file = folder / f"site-{digest(os.fsencode(site))}"

    def told(self) -> str | None:
        """What the build had to tell, where the site still is what it wrote; else None."""
        if self._file is not None and self._site.is_dir():
            with suppress(OSError):
                told = read_sealed(self._file, self._state())
                return None if told is None else told.decode()
        return None

    def keep(self, told: str) -> None:
        """To be called once the site is written."""
        if self._file is not None:
            with suppress(OSError):
                write_sealed(self._file, told.encode(), self._state())
                _prune(self._file.parent)

    def _state(self) -> bytes:
        return digest(self._read, *_stamps(self._site)).encode()


class _Unknown(Exception):
    """A build may read what is not in the course."""


def _prune(folder: Path) -> None:
    """Keeps the newest `MOST_FILES` of the cache folder."""
    files = sorted(folder.iterdir(), key=lambda path: path.stat().st_mtime, reverse=True)
    for path in files[MOST_FILES:]:
        path.unlink(missing_ok=True)


def _contents(course: Path) -> Iterator[bytes]:
    """Name and content of every file that a build may read; hidden ones it never does."""
    own = own_configuration(course)
    if not course.is_dir() or (own is not None and not reads_the_course_alone(own)):
        raise _Unknown
    for path in _files(course):
        yield os.fsencode(path.relative_to(course))
        if path.is_file():
            with path.open("rb") as stream:
                yield hashlib.file_digest(stream, "blake2b").digest()


def _files(course: Path) -> Iterator[Path]:
    """Every file of a course, those behind links in it too; what is neither file nor folder as well."""
    entered: set[str] = set()
    for folder, folders, names in os.walk(course, followlinks=True):
        real = os.path.realpath(folder)
        if not Path(real).is_relative_to(course):
            raise _Unknown
        if real in entered:
            folders.clear()
            continue
        entered.add(real)
        folders[:] = sorted(filter(_is_seen, folders))
        for path in (Path(folder, name) for name in sorted(filter(_is_seen, names))):
            if path.is_symlink() and not Path(os.path.realpath(path)).is_relative_to(course):
                raise _Unknown
            yield path


def _stamps(site: Path) -> Iterator[bytes]:
    """Name, size and time of every file of the site."""
    for folder, folders, names in os.walk(site):
        folders[:] = sorted(filter(_is_seen, folders))
        for name in sorted(filter(_is_seen, names)):
            path = Path(folder, name)
            stat = path.lstat()
            yield os.fsencode(path.relative_to(site))
            yield f"{stat.st_size} {stat.st_mtime_ns}".encode()


def _is_seen(name: str) -> bool:
    return not name.startswith(".")
