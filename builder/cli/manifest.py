"""The list of a site's files, each with its hash, that a build leaves in the site.

By it the next build knows what it may replace. It is in the form of GNU coreutils' `sha256sum`, so that
`sha256sum --check .casetrue` compares a site with it.
"""

from __future__ import annotations

import hashlib
import os
import posixpath
import re
from collections.abc import Iterator
from pathlib import Path

MARKER = ".casetrue"
"""The list's file: it names a folder as written by `casetrue build`."""
_HEAD = b"""\
# Written by `casetrue build`: the files of this site and the SHA-256 of each. The next build
# replaces them. Where it finds others, or changed ones, it stops and says which.
"""
_BEFORE = b"Written by `casetrue build`, which replaces the whole folder.\n"
"""What builds wrote when they kept no list."""
_LINE = re.compile(rb"(\\?)([0-9a-f]{64})  (.+)")
_ESCAPES = {b"\\": rb"\\", b"\n": rb"\n", b"\r": rb"\r"}
_MEANT = {escape: sign for sign, escape in _ESCAPES.items()}
_OF_MACHINES = {".DS_Store", "Thumbs.db", "desktop.ini"}
"""What systems leave in folders that somebody has looked at; nobody misses them."""


def write_manifest(site: Path) -> None:
    """Lists the files of a site in it, sorted by name: the same site, the same bytes."""
    lines = sorted(_line(name, site) for name in _below(site) if name != MARKER)
    (site / MARKER).write_bytes(_HEAD + b"".join(line for _, line in lines))


def is_ours(site: Path) -> bool:
    """Whether a build has written this folder."""
    marker = site / MARKER
    return marker.is_file() and not marker.is_symlink()


def strangers(site: Path) -> list[str]:
    """What no build wrote into a site, or not as it is now, by its path there; that of a folder ends in `/`.

    Of a site that was written when builds kept no list only hidden files and links are known to be others'.
    Raises OSError where something cannot be read.
    """
    marker = (site / MARKER).read_bytes()
    if marker == _BEFORE:
        return [name for name in _below(site) if name != MARKER and _is_never_written(site, name)]
    known = dict(_read(marker))
    folders = {parent for name in known for parent in _parents(name)}
    return list(dict.fromkeys(_strange(site, known, folders)))


def _strange(site: Path, known: dict[bytes, bytes], folders: set[bytes]) -> Iterator[str]:
    for name in _below(site):
        raw = os.fsencode(name)
        if name == MARKER:
            continue
        foreign = next((parent for parent in _parents(raw) if parent not in folders), None)
        if foreign is not None:
            yield os.fsdecode(foreign) + "/"
        elif raw not in known:
            yield name
        elif not _is_plain(site / name) or _hash(site / name) != known[raw]:
            yield f"{name} (changed)"


def _is_never_written(site: Path, name: str) -> bool:
    return any(part.startswith(".") for part in name.split("/")) or not _is_plain(site / name)


def _is_plain(path: Path) -> bool:
    return path.is_file() and not path.is_symlink()


def _below(site: Path) -> Iterator[str]:
    """Every file and link below a folder, sorted, by its path with `/`. Links are not followed."""

    def stop(trouble: OSError) -> None:
        raise trouble

    for folder, folders, names in os.walk(site, onerror=stop):
        links = [name for name in folders if Path(folder, name).is_symlink()]
        folders[:] = sorted(set(folders) - set(links))
        here = Path(folder).relative_to(site).as_posix()
        for name in sorted({*names, *links} - _OF_MACHINES):
            yield posixpath.normpath(f"{here}/{name}")


def _parents(name: bytes) -> list[bytes]:
    """The folders above a file in the site, the outermost first."""
    parts = name.split(b"/")
    return [b"/".join(parts[:end]) for end in range(1, len(parts))]


def _hash(path: Path) -> bytes:
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest().encode()


def _line(name: str, site: Path) -> tuple[bytes, bytes]:
    raw = os.fsencode(name)
    escaped = re.sub(rb"[\\\n\r]", lambda found: _ESCAPES[found[0]], raw)
    return raw, (b"\\" if escaped != raw else b"") + _hash(site / name) + b"  " + escaped + b"\n"


def _read(marker: bytes) -> Iterator[tuple[bytes, bytes]]:
    """File and hash. A line that says neither names nothing."""
    for line in marker.split(b"\n"):
        if found := _LINE.fullmatch(line):
            escaped, hashed, name = found.groups()
            yield re.sub(rb"\\[\\nr]", lambda one: _MEANT[one[0]], name) if escaped else name, hashed
