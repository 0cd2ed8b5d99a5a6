"""The editions of a course that were kept, as far as pages name them."""

from __future__ import annotations

import json
import re
from datetime import date

from builder.course import Edition

from .bounds import MAX_BYTES

VERSION = re.compile(r"[0-9A-Za-z][0-9A-Za-z._-]{0,99}")
_BUILD = re.compile(r"[0-9a-f]{8}")


def edition(file: str, data: bytes) -> Edition:
    """The edition in a file of this name. Raises ValueError for what `casetrue edition` does not write."""
    try:
        read = json.loads(data) if len(data) <= MAX_BYTES else None
    except RecursionError:
        read = None
    told = read if isinstance(read, dict) else {}
    version, day, build = (str(told.get(key)) for key in ("edition", "date", "build"))
    if not VERSION.fullmatch(version) or file != f"{version}.json" or not _BUILD.fullmatch(build):
        raise ValueError("no edition")
    return Edition(version, date.fromisoformat(day).isoformat(), build)


def age_of(one: Edition) -> tuple[str, list[tuple[int, str]]]:
    """Sorts editions by date, then by version with its numbers as numbers: 1.9 before 1.10."""
    parts = re.findall(r"\d+|\D+", one.version)
    return one.date, [(int(part), "") if part.isdecimal() else (-1, part) for part in parts]
