"""Whether a site still is what a build would write, so that there is nothing to do.

It is, where nothing has changed that a build reads (the files of the course, this program, the libraries
beside it) and every file of the site is as the build left it. A course whose mkdocs.yml lets a build read
more, such as one with plugins of others, is always built.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from platformdirs import user_cache_path

from builder.site.cache import digest, program, read_sealed, write_sealed
from builder.source.folder import NoCourse, contents

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
        with suppress(OSError, NoCourse):  # a build tells
            own = own_configuration(course)
            if own is not None and not reads_the_course_alone(own):
                return
            about = (program().encode(), os.fsencode(course), os.fsencode(site))
            self._read = digest(*about, *contents(course)).encode()
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


def _prune(folder: Path) -> None:
    """Keeps the newest `MOST_FILES` of the cache folder."""
    files = sorted(folder.iterdir(), key=lambda path: path.stat().st_mtime, reverse=True)
    for path in files[MOST_FILES:]:
        path.unlink(missing_ok=True)


def _stamps(site: Path) -> Iterator[bytes]:
    """Name, size and time of every file of the site."""
    for folder, folders, names in os.walk(site):
        folders[:] = sorted(filter(_is_seen, folders))
        here = Path(folder).relative_to(site).as_posix()
        for name in sorted(filter(_is_seen, names)):
            stat = Path(folder, name).lstat()
            yield os.fsencode(f"{here}/{name}")
            yield f"{stat.st_size} {stat.st_mtime_ns}".encode()


def _is_seen(name: str) -> bool:
    return not name.startswith(".")
