"""The mark of a build, and how it stands to the newest edition."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

from builder.course import Edition


def mark(texts: Mapping[str, str]) -> str:
    """Eight hexadecimal digits that change with any file of a course; `texts` are its files by path. Editions
    are none of them."""
    digest = hashlib.sha256()
    for file in sorted(texts):
        digest.update(f"{file}\0{texts[file]}\0".encode("utf-8", "surrogatepass"))
    return digest.hexdigest()[:8]


def label(edition: Edition | None, build: str) -> str:
    """What pages and records call this build: the newest edition's version, with `+` and the mark where the
    build differs from it; empty where no edition was kept. A version holds no `+`."""
    if edition is None:
        return ""
    return edition.version if edition.build == build else f"{edition.version}+{build}"
