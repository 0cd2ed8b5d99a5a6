"""What a browser needs to keep a course: who the course is, and which files it comes to."""

from __future__ import annotations

import hashlib
import json
import os
import posixpath
import re
from collections.abc import Iterator
from pathlib import Path

from builder.answers import addresses

from .assets import stylesheet
from .site import Site

_SHORT = 12
"""Letters that a device shows below an icon, as a rule."""
_NOT_KEPT = frozenset({addresses.WORKER, addresses.OFFLINE, addresses.OFFLINE_FILES})
"""What keeps the copy is no part of it."""


def manifest(site: Site) -> str:
    """The Web Application Manifest (W3C). It opens in the browser: an app of its own may have a store of its
    own, and a learner's record would be in two places."""
    paper = colour("paper")
    about = site.course.about
    return _json(
        {
            "name": about.title,
            "short_name": short(about.title),
            "description": site.description,
            "lang": about.language,
            "start_url": ".",
            "scope": ".",
            "display": "browser",
            "theme_color": paper,
            "background_color": paper,
            "icons": [
                {"src": addresses.ICON, "sizes": "any", "type": "image/svg+xml", "purpose": "any maskable"}
            ],
        }
    )


def icon() -> str:
    """The plumb line on paper, within the circle that every mask leaves (radius 40 per cent)."""
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64">'
        f'<path d="M0 0H64V64H0Z" fill="{colour("paper")}"/>'
        f'<path d="M32 9V28" stroke="{colour("brass")}" stroke-width="3"/>'
        f'<path d="M21 27H43V30L32 55 21 30Z" fill="{colour("brass")}"/></svg>\n'
    )


def colour(token: str) -> str:
    """A colour of the light scheme."""
    found = re.search(rf"--{token}:\s*(#[0-9a-f]{{6}})", stylesheet())
    assert found is not None, token
    return found[1]


def short(title: str) -> str:
    """The first words of a title, as many as a device shows; part of a word where the first is longer."""
    words = title.split()
    said = ""
    while words and len(f"{said} {words[0]}".strip()) <= _SHORT:
        said = f"{said} {words.pop(0)}".strip()
    return said or title[:_SHORT]


def write_lists(site: Site, folder: Path) -> None:
    """Lists the files of a built site: `offline-files.json` each with its bytes and the start of its SHA-256,
    `offline.json` what they come to. To be called when all else is written."""
    files = {name: _of(folder / name) for name in sorted(_below(folder))}
    head = {
        "mark": hashlib.sha256(_json(files).encode()).hexdigest()[:8],
        "bytes": sum(size for size, _ in files.values()),
        "build": site.build,
        "edition": site.edition_said,
    }
    for name, value in ((addresses.OFFLINE, head), (addresses.OFFLINE_FILES, {**head, "files": files})):
        (folder / name).write_text(_json(value), encoding="utf-8", newline="\n")


def _of(file: Path) -> tuple[int, str]:
    with file.open("rb") as stream:
        return file.stat().st_size, hashlib.file_digest(stream, "sha256").hexdigest()[:8]


def _below(folder: Path) -> Iterator[str]:
    """Every file that a host serves, by its path in the site."""
    for at, folders, names in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".")]
        here = Path(at).relative_to(folder).as_posix()
        for name in names:
            uri = posixpath.normpath(f"{here}/{name}")
            if not name.startswith(".") and uri not in _NOT_KEPT:
                yield uri


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":")) + "\n"
