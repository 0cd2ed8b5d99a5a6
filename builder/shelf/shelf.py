"""Results kept from one run to the next, found again by the hash of what they were made from.

One JSON file a course and purpose, in the user's cache folder: nothing is written into the course, so no
watcher wakes and nothing reaches version control. It is read as data and never run. A file that is damaged,
from another version, or not writable is as good as none; nobody is told.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from contextlib import suppress
from decimal import Decimal
from pathlib import Path
from typing import Any

from platformdirs import user_cache_path

from . import sealed
from .digest import digest
from .program import program

KEPT_FROM = 50
"""Clients or files from which on keeping pays."""
MOST_FILES = 40
"""Files in the cache folder; the oldest beyond that are deleted."""
_DECIMAL = "\x00"
"""The key under which a decimal is written: no text of a course holds this character."""


class Shelf:
    """Entries by name, each good for one hash only."""

    def __init__(
        self, course_dir: Path, purpose: str, version: str | None = None, *, folder: Path | None = None
    ) -> None:
        """`version` is the hash of the program; `folder` is the user's cache folder."""
        self._folder = folder or user_cache_path("casetrue", appauthor=False)
        course = os.fsencode(course_dir.resolve())
        self._path = self._folder / f"{purpose}-{digest(course)}.json"
        self._version = version or program()
        self._old: dict[str, list[Any]] = self._read()
        self._new: dict[str, list[Any]] = {}
        self._is_saved = True

    def get(self, name: str, made_from: str, make: Callable[[], Any]) -> Any:
        """The value kept for this name and hash, else what `make` returns.

        Values are what JSON can hold, and Decimals.
        """
        entry = self._old.get(name)
        if entry is None or entry[0] != made_from:
            entry = [made_from, make()]
        self._new[name] = entry
        return entry[1]

    def turn(self) -> None:
        """Keeps what was asked for since the shelf was opened or last turned, and forgets the rest."""
        is_same = self._new.keys() == self._old.keys()
        if not is_same or any(entry is not self._old[name] for name, entry in self._new.items()):
            self._is_saved = False
        self._old, self._new = self._new, {}

    def save(self) -> None:
        """Turns the shelf and writes it."""
        self.turn()
        self.write()

    def write(self) -> None:
        """Writes what the shelf holds for the next run, where anything has changed."""
        if self._is_saved:
            return
        self._is_saved = True
        if not self._folder.is_absolute():
            return  # The user has no home; a relative path would lead into whatever folder this runs in.
        body = json.dumps(
            {"version": self._version, "entries": self._old}, default=_decimal, separators=(",", ":")
        ).encode()
        sealed.write(self._path, body)
        with suppress(OSError):
            self._prune()

    def _read(self) -> dict[str, list[Any]]:
        body = sealed.read(self._path)
        if body is None:
            return {}
        kept = json.loads(body, object_hook=_number)
        entries: dict[str, list[Any]] = kept["entries"] if kept["version"] == self._version else {}
        return entries

    def _prune(self) -> None:
        files = sorted(self._folder.iterdir(), key=lambda path: path.stat().st_mtime, reverse=True)
        for path in files[MOST_FILES:]:
            path.unlink(missing_ok=True)


def _decimal(value: object) -> dict[str, str]:
    if isinstance(value, Decimal):
        return {_DECIMAL: str(value)}
    raise TypeError(f"{type(value).__name__} cannot be kept")


def _number(value: dict[str, Any]) -> Any:
    return Decimal(value[_DECIMAL]) if _DECIMAL in value else value
