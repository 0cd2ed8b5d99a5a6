"""Looking for changed files while serving."""

from __future__ import annotations

import os
import threading
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from watchdog.events import FileModifiedEvent, FileSystemEventHandler

from builder.source.files import is_passed_over

Look = Mapping[str, tuple[int, int, int]]
"""File to its time (nanoseconds), its size (bytes) and its number on the disk."""


class Watcher(threading.Thread):
    """Compares what is there with what was there, again and again.

    It stands in for the library's observer, which gives up for good once a folder is away, as in the moment
    in which a branch is changed. Links are not followed, and what no build reads does not count.
    """

    def __init__(self, seconds: float) -> None:
        """`seconds` from one look to the next."""
        super().__init__(daemon=True)
        self._seconds = seconds
        self._over = threading.Event()
        self._handlers: dict[str, FileSystemEventHandler] = {}
        self._seen: dict[str, Look] = {}

    def schedule(self, handler: FileSystemEventHandler, path: str, *, recursive: bool = True) -> str:
        """From now on tells a handler of changes of a file, or of any file below a folder."""
        self._handlers[path], self._seen[path] = handler, look(path)
        return path

    def unschedule(self, path: str) -> None:
        del self._handlers[path], self._seen[path]

    def stop(self) -> None:
        self._over.set()

    def run(self) -> None:
        while not self._over.wait(self._seconds):
            self.compare()

    def compare(self) -> None:
        """One look at everything."""
        for path, handler in list(self._handlers.items()):
            now = look(path)
            if path in self._seen and now != self._seen[path]:
                self._seen[path] = now
                handler.dispatch(FileModifiedEvent(path))


def look(path: str) -> Look:
    """What is there now. What cannot be looked at is not there."""
    found: dict[str, tuple[int, int, int]] = {}
    files = [] if Path(path).is_dir() else [path]
    for folder, folders, names in os.walk(path):
        folders[:] = [name for name in folders if not is_passed_over(name)]
        files += (f"{folder}{os.sep}{name}" for name in names if not is_passed_over(name))
    for file in files:
        with suppress(OSError):
            stat = os.lstat(file)
            found[file] = stat.st_mtime_ns, stat.st_size, stat.st_ino
    return found
