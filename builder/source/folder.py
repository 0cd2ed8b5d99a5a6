"""The files of a course folder."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from .bounds import MAX_BYTES
from .kinds import CONTENT_FOLDERS, COURSE, KINDS, Kind

YAML_ENDINGS = (".yml", ".yaml")
_LOST_ENDINGS = (*YAML_ENDINGS, ".txt", ".json", ".rtf", ".docx")


class NoCourse(Exception):
    """There is no course in the folder."""


@dataclass(frozen=True, slots=True)
class Found:
    """One file; `name` is its path below the course folder, with `/`."""

    name: str
    path: Path
    kind: Kind


@dataclass(frozen=True, slots=True)
class Ignored:
    """A file or folder that someone may believe to be read."""

    name: str
    message: str
    hint: str


@dataclass(frozen=True, slots=True)
class Listing:
    files: tuple[Found, ...]
    lessons: tuple[tuple[str, Path], ...]
    attached: tuple[str, ...]
    """What lies beside the lessons for them to show, such as pictures."""
    ignored: tuple[Ignored, ...]


def listing(course_dir: Path) -> Listing:
    """What lies in a course folder, sorted by name. Raises NoCourse where there is no course.yml."""
    root = course_dir.resolve()
    if not root.is_dir():
        raise NoCourse(f"There is no folder {course_dir}.")
    ignored: list[Ignored] = []
    singles = {kind.where.removesuffix(".yml"): kind for kind in KINDS if not kind.is_folder}
    folders = {kind.where.removesuffix("/"): kind for kind in KINDS if kind.is_folder}
    files: list[Found] = []
    lessons: list[tuple[str, Path]] = []
    attached: list[str] = []
    for entry in _entries(root, root, "", ignored):
        name = _name(entry)
        stem, ending = os.path.splitext(name)  # noqa: PTH122
        if entry.is_dir():
            if name in folders:
                kind = folders[name]
                files.extend(_found(item, root, kind) for item in _below(entry, root, name + "/", ignored))
            elif name == "lessons":
                for below, path in _walk(entry, root, "lessons/", ignored):
                    if below.endswith(".md"):
                        lessons.append((below, path))
                    else:
                        attached.append(below)
            else:
                ignored.extend(_lost_folder(name))
        elif ending in YAML_ENDINGS and stem in singles:
            files.append(Found(name, Path(entry.path), singles[stem]))
        elif stem.casefold() in CONTENT_FOLDERS and ending.lower() in ("", *YAML_ENDINGS):
            ignored.append(_no_folder(name, stem.casefold()))
        elif stem != "mkdocs" and ending.lower() in YAML_ENDINGS:
            ignored.append(_lost_file(name, [kind.where for kind in singles.values()]))
    if not any(file.kind is COURSE for file in files):
        raise NoCourse(f"There is no course.yml in {course_dir}.")
    return Listing(
        tuple(sorted(files, key=lambda file: file.name)),
        tuple(sorted(lessons)),
        tuple(sorted(attached)),
        tuple(sorted(ignored, key=lambda item: item.name)),
    )


def read_bytes(path: Path) -> bytes:
    """The bytes of a file, and one more than allowed where it is too large. Raises OSError."""
    with path.open("rb") as stream:
        return stream.read(MAX_BYTES + 1)


def _found(item: tuple[str, Path], root: Path, kind: Kind) -> Found:
    return Found(item[0], item[1], kind)


def _name(entry: os.DirEntry[str]) -> str:
    return os.fsencode(entry.name).decode("utf-8", "replace")


def _entries(
    folder: Path | str, root: Path, below: str, ignored: list[Ignored]
) -> Iterator[os.DirEntry[str]]:
    """The entries that count: not hidden, no editor's leftovers, no links out of the course."""
    try:
        with os.scandir(folder) as scan:
            entries = sorted(scan, key=lambda entry: entry.name)
    except OSError:
        ignored.append(Ignored(below, "This folder cannot be opened.", "Check who may read it."))
        return
    for entry in entries:
        name = entry.name
        if name.startswith((".", "#", "~")) or name.endswith(("~", ".swp", ".tmp", ".bak", ".orig")):
            continue
        if entry.is_symlink() and not Path(os.path.realpath(entry.path)).is_relative_to(root):
            message = "This is a link that leads out of the course folder; it is not followed."
            ignored.append(Ignored(below + _name(entry), message, "Put the file itself here."))
        elif _is_there(entry):
            yield entry
        elif entry.is_symlink():
            message = "This is a link that leads nowhere."
            ignored.append(Ignored(below + _name(entry), message, "Put the file itself here, or delete it."))


def _is_there(entry: os.DirEntry[str]) -> bool:
    """True for a file or a folder; false for what is neither, such as a pipe or a link to itself."""
    try:
        return entry.is_dir() or entry.is_file()
    except OSError:
        return False


def _walk(
    folder: os.DirEntry[str], root: Path, below: str, ignored: list[Ignored], depth: int = 0
) -> Iterator[tuple[str, Path]]:
    for entry in _entries(folder.path, root, below, ignored):
        name = below + _name(entry)
        if entry.is_file():
            yield name, Path(entry.path)
        elif depth < 8 and not entry.is_symlink():
            yield from _walk(entry, root, name + "/", ignored, depth + 1)


def _below(
    folder: os.DirEntry[str], root: Path, below: str, ignored: list[Ignored]
) -> Iterator[tuple[str, Path]]:
    """The YAML files of a folder, those in its sub-folders included."""
    for name, path in _walk(folder, root, below, ignored):
        if name.endswith(YAML_ENDINGS):
            yield name, path
        elif any(ending in name.lower() for ending in _LOST_ENDINGS):
            ignored.append(
                Ignored(
                    name,
                    "This file is not read: its name does not end in `.yml`.",
                    "Rename it to end in `.yml`.",
                )
            )


def _lost_folder(name: str) -> Iterator[Ignored]:
    if near := get_close_matches(name.lower(), CONTENT_FOLDERS, 1, 0.75):
        yield Ignored(name, f"The folder {name}/ is not read.", f"Did you mean {near[0]}/?")


def _no_folder(name: str, folder: str) -> Ignored:
    hint = f"Rename it, then make a folder {folder}/ and put it there."
    return Ignored(name, f"{name} is a file where the folder {folder}/ should be; it is not read.", hint)


def _lost_file(name: str, known: list[str]) -> Ignored:
    near = get_close_matches(name.lower(), known, 1, 0.75)
    hint = (
        f"Did you mean {near[0]}?"
        if near
        else "Files of this kind stand in a folder, such as tables/ or cases/."
    )
    return Ignored(name, f"The file {name} is not read.", hint)
