"""What an unquoted text stands for.

`true` and `false` are yes/no, plain decimals (`12`, `-0.5`) are numbers, `null`, `~` or nothing at all is
empty, and everything else is text: dates, `yes`, `True`, `012`, `1e3`, `12:30`.
"""

from __future__ import annotations

import math
import re
from decimal import Decimal

from .bounds import MAX_DIGITS

_WORDS: dict[str, bool | None] = {
    "true": True,
    "false": False,
    "": None,
    "~": None,
    "null": None,
    "Null": None,
    "NULL": None,
}
_NUMBER = re.compile(rf"-?(?:0|[1-9][0-9]{{0,{MAX_DIGITS - 1}}})(?:\.[0-9]{{1,{MAX_DIGITS}}})?\Z")
_STARTS = frozenset("-+.0123456789")
_NOT_FINITE = re.compile(r"[-+]?\.(?:inf|Inf|INF)\Z|\.(?:nan|NaN|NAN)\Z")
_EXPONENT = re.compile(r"[-+]?(?:\.[0-9]{1,40}|[0-9]{1,40}(?:\.[0-9]{0,40})?)[eE][-+]?[0-9]{1,40}\Z")


def plain_value(text: str) -> bool | int | Decimal | str | None:
    """The value of an unquoted text. A number is an `int` where no point is written, else a `Decimal`."""
    if text in _WORDS:
        return _WORDS[text]
    if text[0] in _STARTS and _NUMBER.match(text):
        return Decimal(text) if "." in text else int(text)
    return text


def is_boundless(text: str) -> bool:
    """True for what other YAML readers take for infinity, or for no number at all."""
    if text[0] not in _STARTS:
        return False
    return bool(_NOT_FINITE.match(text) or (_EXPONENT.match(text) and math.isinf(float(text))))
