"""An educator's prose cut where a page shows a part of it first."""

from __future__ import annotations

import re
from dataclasses import dataclass

from . import prose


@dataclass(frozen=True, slots=True)
class Stem:
    """What is asked, and what is told before it."""

    before: str
    ask: str


_FENCE = re.compile(r"(?m)^\s*(```|~~~)")
_BLOCK = re.compile(r"\s*([-+*>#|]|\d+[.)]|```|~~~| {4})")


def _blocks(text: str) -> list[str]:
    """What blank lines set apart."""
    return [block for block in re.split(r"\n[ \t]*\n", text.strip()) if block.strip()]


def stem(text: str) -> Stem:
    """Splits a question's text: its last paragraph is what is asked; a list, table or code is not."""
    blocks = _blocks(text)
    if len(blocks) < 2 or _BLOCK.match(blocks[-1]):
        return Stem("", text) if len(blocks) < 2 else Stem("\n\n".join(blocks[1:]), blocks[0])
    return Stem("\n\n".join(blocks[:-1]), blocks[-1])


@dataclass(frozen=True, slots=True)
class Lead:
    first: str
    rest: str
    """Empty where the whole is short."""


_OPENING = 2
"""Blocks that are told at once: what you see, what to do."""


def opening(text: str) -> Lead:
    """A long text cut after its second block, so that nothing stands between what to do now and what comes
    next. It is cut only before a plain paragraph, which no list, table or code can run on into."""
    blocks = _blocks(text)
    for at in range(_OPENING, len(blocks) - 1):
        if not (_BLOCK.match(blocks[at]) or blocks[at][0].isspace()) and not _FENCE.search(text):
            return Lead("\n\n".join(blocks[:at]), "\n\n".join(blocks[at:]))
    return Lead(text, "")


_LONGEST = 160


def short(text: str) -> str:
    """What a question is named by, in plain words: what it asks, cut where it is long."""
    asked = prose.plain(stem(text).ask)
    return asked if len(asked) <= _LONGEST else asked[: _LONGEST - 1].rstrip() + "\N{HORIZONTAL ELLIPSIS}"
