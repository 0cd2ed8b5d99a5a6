"""From the bytes of a file to its text."""

from __future__ import annotations

import re
from dataclasses import dataclass

from builder.course import Path

from .bounds import MAX_BYTES


@dataclass(frozen=True, slots=True)
class ReadFault:
    """Something that a file may not say; `path` is the smallest part that cannot be trusted."""

    path: Path
    line: int
    column: int
    message: str
    hint: str = ""


CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufffe\uffff\ud800-\udfff]")
"""Characters that no text may hold."""


def decode(data: bytes) -> tuple[str, ReadFault | None]:
    """The text of a file, its byte-order mark dropped and its line ends made `\\n`. Never raises.

    A text with a fault is what can be shown of it.
    """
    if len(data) > MAX_BYTES:
        message = f"The file is larger than {MAX_BYTES // 1_000_000} MB."
        return "", ReadFault((), 1, 1, message, "Split it into smaller files.")
    try:
        return _plain_breaks(data.decode("utf-8-sig")), None
    except UnicodeDecodeError as error:
        if data.startswith((b"\xff\xfe", b"\xfe\xff")):
            text = _plain_breaks(data.decode("utf-16", "replace"))
            return text, ReadFault((), 1, 1, "The file is saved as UTF-16.", "Save it as UTF-8.")
        text = _plain_breaks(data.decode("utf-8-sig", "replace"))
        line, column = position(_plain_breaks(data[: error.start].decode("utf-8-sig", "replace")))
        message = "Some letters on this line are not UTF-8."
        return text, ReadFault((), line, column, message, "Save the file as UTF-8.")


def control_fault(text: str) -> ReadFault | None:
    """The first control character of a text, if there is one."""
    found = CONTROL.search(text)
    if found is None:
        return None
    message = "There is a control character here, which no text may hold."
    return ReadFault((), *position(text[: found.start()]), message, "Delete it and type the words again.")


def position(before: str) -> tuple[int, int]:
    """Line and column, from 1, of what follows a text."""
    return before.count("\n") + 1, len(before) - before.rfind("\n")


def _plain_breaks(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n") if "\r" in text else text
