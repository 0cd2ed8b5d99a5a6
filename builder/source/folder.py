"""The files of a course folder, each with what it is."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from .bounds import MAX_BYTES
from .files import Refused, Walk
from .kinds import CONTENT_FOLDERS, COURSE, EDITIONS, KINDS, Kind

YAML_ENDINGS = (".yml", ".yaml")
_LOST_ENDINGS = (*YAML_ENDINGS, ".txt", ".json", ".rtf", ".docx")
_OTHER_LESSONS = (".md", ".markdown", ".mdown", ".mkdn", ".mkd")
"""Endings, however written, that are taken for those of lessons."""


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
    """The one list of a course's files; whatever is not on it is never opened."""

    files: tuple[Found, ...]
    lessons: tuple[tuple[str, Path], ...]
    attached: tuple[tuple[str, Path], ...]
    """What lies beside the lessons for them to show, such as pictures."""
    settings: tuple[tuple[str, Path], ...]
    """MkDocs' own, which are no part of the course and do change its site."""
    editions: tuple[tuple[str, Path], ...]
    """The editions that were kept."""
    ignored: tuple[Ignored, ...]
    refused: tuple[Refused, ...]


def listing(course_dir: Path) -> Listing:
    """What lies in a course folder, sorted by name. Raises NoCourse where there is no course.yml."""
    if not course_dir.is_dir():  # nor does a link that leads round to itself lead to one
        raise NoCourse(f"There is no folder {course_dir}.")
    root = course_dir.resolve()
    walk = Walk(root)
    ignored: list[Ignored] = []
    singles = {kind.where.removesuffix(".yml"): kind for kind in KINDS if not kind.is_folder}
    folders = {kind.where.removesuffix("/"): kind for kind in KINDS if kind.is_folder}
    files: list[Found] = []
    lessons: list[tuple[str, Path]] = []
    attached: list[tuple[str, Path]] = []
    settings: list[tuple[str, Path]] = []
    editions: list[tuple[str, Path]] = []
    for name, path in walk.top():
        stem, ending = os.path.splitext(name)  # noqa: PTH122
        if path.is_dir():
            if name in folders:
                kind = folders[name]
                files.extend(Found(*item, kind) for item in _yaml(walk.below(path, name), ignored))
            elif name == EDITIONS:
                editions.extend(walk.below(path, name))
            elif name == "lessons":
                for item in walk.below(path, name):
                    if item[0].endswith(".md"):
                        lessons.append(item)
                    elif item[0].lower().endswith(_OTHER_LESSONS):
                        ignored.append(_no_lesson(item[0]))
                    else:
                        attached.append(item)
            else:
                ignored.extend(_lost_folder(name))
        elif ending in YAML_ENDINGS and stem in singles:
            files.append(Found(name, path, singles[stem]))
        elif stem.casefold() in CONTENT_FOLDERS and ending.lower() in ("", *YAML_ENDINGS):
            ignored.append(_no_folder(name, stem.casefold()))
        elif stem == "mkdocs" and ending in YAML_ENDINGS:
            settings.append((name, path))
        elif ending.lower() in YAML_ENDINGS:
            ignored.append(_lost_file(name, [kind.where for kind in singles.values()]))
    if not any(file.kind is COURSE for file in files):
        raise NoCourse(_no_course(course_dir, walk.refused))
    return Listing(
        tuple(sorted(files, key=lambda file: file.name)),
        tuple(sorted(lessons)),
        tuple(sorted(attached)),
        tuple(sorted(settings)),
        tuple(sorted(editions)),
        tuple(sorted(ignored, key=lambda item: item.name)),
        tuple(sorted(walk.refused, key=lambda item: item.name)),
    )


def contents(course_dir: Path) -> Iterator[bytes]:
    """Name and digest of every file on the list, and what else there is to tell of the folder: where both are
    the same, so is the course. Raises NoCourse, and OSError where a file cannot be read."""
    found = listing(course_dir)
    files = [(file.name, file.path) for file in found.files]
    for name, path in (*files, *found.lessons, *found.attached, *found.settings, *found.editions):
        with path.open("rb") as stream:
            yield name.encode()
            yield hashlib.file_digest(stream, "blake2b").digest()
    told = [(item.name, item.message) for item in found.ignored]
    told += [(item.name, item.message) for item in found.refused]
    yield from (f"{name}\n{message}".encode() for name, message in told)


def read_bytes(path: Path) -> bytes:
    """The bytes of a file, and one more than allowed where it is too large. Raises OSError."""
    with path.open("rb") as stream:
        return stream.read(MAX_BYTES + 1)


def _yaml(files: Iterator[tuple[str, Path]], ignored: list[Ignored]) -> Iterator[tuple[str, Path]]:
    """The YAML files among those of a folder."""
    for name, path in files:
        if name.endswith(YAML_ENDINGS):
            yield name, path
        elif any(ending in name.lower() for ending in _LOST_ENDINGS):
            message = "This file is not read: its name does not end in `.yml`."
            ignored.append(Ignored(name, message, "Rename it to end in `.yml`."))


def _no_course(course_dir: Path, refused: list[Refused]) -> str:
    why = next((item.message for item in refused if item.name == COURSE.where), "")
    return f"There is no course.yml in {course_dir}.{f' What is called so: {why}' if why else ''}"


def _no_lesson(name: str) -> Ignored:
    message = "This file is not read: the name of a lesson ends in `.md`."
    return Ignored(name, message, "Rename it to end in `.md`.")


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
