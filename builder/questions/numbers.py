"""Reads a number as a learner types it, exactly; `readNumber` in the browser's `marking.js` does the same."""

from __future__ import annotations

import re
from fractions import Fraction

SPACES = " \t\r\n\u00a0\u2007\u2009\u202f"
"""What may stand around a number and after its sign."""
LONGEST = 40
"""Longer text is no number."""
_NUMBER = re.compile(rf"[{SPACES}]*([+\-\u2212\u2013]?)[{SPACES}]*([0-9]*)(?:[.,]([0-9]*))?[{SPACES}]*")


def read_number(text: str) -> Fraction | None:
    """The number that `text` writes, or None where it writes none.

    Digits 0 to 9 with at most one decimal mark, a point or a comma; before them a sign if need be: `+`, the
    hyphen, the minus sign or the dash that phones put in its place. Spaces around it do not matter. Nothing
    groups thousands, no exponent, no unit.
    """
    match = _NUMBER.fullmatch(text) if len(text) <= LONGEST else None
    if match is None:
        return None
    sign, whole, part = match[1], match[2], match[3] or ""
    if not whole + part:
        return None
    size = Fraction(int(whole + part), 10 ** len(part))
    return size if sign in ("", "+") else -size
