"""Which files a course consists of: the regular files inside its folder.

Checks, builds, the watch while serving and the hash of what was read all go by this one list. A link counts
where it leads to such a file; any other would publish what lies elsewhere, or never come to an end.
"""

from __future__ import annotations

import os
import re
import unicodedata
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from .bounds import MAX_FOLDERS

_UNSEEN = re.compile(
    "[\x00-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufffe\uffff]"
)
"""What no name may hold: orders to a terminal, changes of direction (UAX 9), signs that nobody sees. Joiners
of letters are none of these: some scripts write with them."""


@dataclass(frozen=True, slots=True)
class Refused:
    """What lies in a course and can be no part of it."""

    name: str
    message: str
    hint: str


def is_passed_over(name: str) -> bool:
    """True for hidden files and for what editors leave behind: nobody means them to be read."""
    return name.startswith((".", "#", "~")) or name.endswith(("~", ".swp", ".tmp", ".bak", ".orig"))


def alike(name: str) -> str:
    """The same for all names that are one on a machine that does not tell capital letters apart."""
    return unicodedata.normalize("NFC", name.casefold())


@dataclass(slots=True)
class Walk:
    """Goes through the folders of a course; what must not lie there gathers in `refused`.

    Names are paths below the course folder, with `/`, in composed letters (Unicode's form NFC) however the
    file system spells them.
    """

    root: Path
    """The course folder, resolved."""
    refused: list[Refused] = field(default_factory=list)

    def top(self) -> Iterator[tuple[str, Path]]:
        """The files and folders right in the course folder."""
        for entry in self._entries(self.root, ""):
            if not is_passed_over(entry.name) and self._is_sound(entry, ""):
                yield _name(entry), Path(entry.path)

    def below(
        self, folder: Path, name: str, depth: int = 1, *, counts: bool = True
    ) -> Iterator[tuple[str, Path]]:
        """The files below a folder. Without `counts` there are none, and folders are looked through for links
        alone: MkDocs would follow those."""
        if depth > MAX_FOLDERS:
            self._refuse(
                name, f"The folders nest more than {MAX_FOLDERS} deep.", "Move it nearer to the top."
            )
            return
        for entry in self._entries(folder, f"{name}/"):
            if not counts or is_passed_over(entry.name):
                is_folder = _is_there(entry.is_dir)
                if is_folder and (not entry.is_symlink() or self._is_sound(entry, f"{name}/")):
                    yield from self.below(Path(entry.path), f"{name}/{_name(entry)}", depth + 1, counts=False)
            elif self._is_sound(entry, f"{name}/"):
                inner = f"{name}/{_name(entry)}"
                if entry.is_file():
                    yield inner, Path(entry.path)
                else:
                    yield from self.below(Path(entry.path), inner, depth + 1)

    def _entries(self, folder: Path, below: str) -> list[os.DirEntry[str]]:
        try:
            with os.scandir(folder) as scan:
                return sorted(scan, key=lambda entry: entry.name)
        except OSError:
            self._refuse(below.rstrip("/"), "This folder cannot be opened.", "Check who may read it.")
            return []

    def _is_sound(self, entry: os.DirEntry[str], below: str) -> bool:
        wrong = self._wrong(entry)
        if wrong is not None:
            self._refuse(below + _name(entry), *wrong)
        return wrong is None

    def _wrong(self, entry: os.DirEntry[str]) -> tuple[str, str] | None:
        """What is wrong with an entry, and what to do about it."""
        name = os.fsencode(entry.name)
        if name.decode("utf-8", "replace") != entry.name:
            return "The name of this file is not UTF-8.", "Rename it, best with plain letters."
        if _UNSEEN.search(entry.name):
            message = (
                "The name of this file holds a sign that cannot be seen, such as an order to a terminal."
            )
            return message, "Rename it, best with plain letters."
        if entry.is_symlink():
            return self._wrong_link(entry)
        if not (entry.is_file() or entry.is_dir()):
            message = "This is neither a file nor a folder, but a pipe, a device or a socket."
            return message, "Delete it, or put a file in its place."
        return None

    def _wrong_link(self, entry: os.DirEntry[str]) -> tuple[str, str] | None:
        target = Path(os.path.realpath(entry.path))
        if not target.is_relative_to(self.root):
            return "This is a link that leads out of the course folder.", "Put the file itself here."
        if _is_there(entry.is_dir):
            return "This is a link to a folder; only links to files are followed.", "Put the files here."
        if not _is_there(entry.is_file):
            return "This is a link that leads to no file.", "Put the file itself here, or delete the link."
        if any(map(is_passed_over, target.relative_to(self.root).parts)):
            return "This is a link to a hidden file.", "Put the file itself here."
        return None

    def _refuse(self, name: str, message: str, hint: str) -> None:
        self.refused.append(Refused(name, message, hint))


def _is_there(test: Callable[[], bool]) -> bool:
    """False where the test leads round in a circle."""
    try:
        return test()
    except OSError:
        return False


def _name(entry: os.DirEntry[str]) -> str:
    """The name as it can be shown anywhere: what cannot be seen is spelt out."""
    name = os.fsencode(entry.name).decode("utf-8", "replace")
    return _UNSEEN.sub(lambda sign: f"\\u{ord(sign[0]):04x}", unicodedata.normalize("NFC", name))
