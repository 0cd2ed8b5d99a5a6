"""The site's own style and script, and what a theme brings along that no page needs."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import partial
from pathlib import Path

from builder.answers import addresses

from .page import Asset

_HERE = Path(__file__).parent
_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_LEADING = re.compile(r"^\s+", re.MULTILINE)


def assets() -> Iterator[Asset]:
    """Style and script, the same on every page, and the scripts of walks and of quizzes."""
    yield Asset(addresses.STYLE, stylesheet)
    yield Asset(addresses.SCRIPT, partial(script, "casetrue"))
    yield Asset(addresses.WALK_SCRIPT, partial(script, "walk"))
    yield Asset(addresses.ASKING_SCRIPT, partial(script, "asking"))
    yield Asset(addresses.NOTE_SCRIPT, partial(script, "note"))
    yield Asset(addresses.QUIZ_SCRIPT, partial(script, "quiz"))
    yield Asset(addresses.DRAW_SCRIPT, partial(script, "draw"))
    yield Asset(addresses.TASK_SCRIPT, partial(script, "task"))
    yield Asset(addresses.RESULT_SCRIPT, partial(script, "result"))


def script(name: str) -> str:
    """A bundle of browser modules."""
    return (_HERE / "web" / "dist" / f"{name}.js").read_text("utf-8")


def stylesheet() -> str:
    """All of `style/*.css` in the order of their names."""
    sheets = (file.read_text("utf-8") for file in sorted((_HERE / "style").glob("*.css")))
    return compact("".join(sheets))


def compact(sheet: str) -> str:
    """A style sheet without comments and indents."""
    return _LEADING.sub("", _COMMENT.sub("", sheet))


def needed(uri: str, language: str) -> bool:
    """Whether a theme's file is of use: no source map is, nor search helpers for other languages."""
    if uri.endswith(".map"):
        return False
    if "/lunr/" in uri:
        return f".{language[:2]}." in uri or "stemmer.support" in uri
    return True
