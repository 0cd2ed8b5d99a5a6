"""Texts as a terminal or a log may print them."""

from __future__ import annotations

import re

_ORDERS = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")
"""Control characters (orders to a terminal), changes of direction, halves of letters; not line feeds."""


def printable(text: str) -> str:
    """The text with what would act on its reader's terminal spelt out: `\\x1b`."""
    return _ORDERS.sub(_spelt, text)


def one_line(path: object) -> str:
    """A path for a message: on one line, whatever it holds."""
    return printable(str(path)).replace("\n", "\\n")


def blanked(line: str) -> str:
    """The same with a space for each, so that every letter keeps its column."""
    return _ORDERS.sub(" ", line)


def _spelt(sign: re.Match[str]) -> str:
    point = ord(sign[0])
    return f"\\x{point:02x}" if point < 0x100 else f"\\u{point:04x}"
