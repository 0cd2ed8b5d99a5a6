"""Hints for a value that was written in another way than it is read."""

from __future__ import annotations

import re
from decimal import Decimal

from .bounds import MAX_DIGITS

_LONGEST = 40
_NUMBER_THEN_UNIT = re.compile(r"\s*([-+]?[0-9]+(?:[.,][0-9]+)?)\s*(\D.*)\Z", re.DOTALL)
_EXPONENT = re.compile(r"[-+]?[0-9]{1,12}(?:\.[0-9]{1,12})?[eE][-+]?[0-9]{1,2}\Z")


def shown(value: object) -> str:
    """A value as the educator would write it, cut where it is long."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if value is None:
        return ""
    text = " ".join(str(value).split())
    return text if len(text) <= _LONGEST else text[: _LONGEST - 1] + "…"


def number_hint(text: str, *, whole: bool = False) -> str:
    """How to write the number that `text` seems to mean."""
    plain = _plain_number(text.strip())
    if plain is None:
        return "Write a whole number, such as 12." if whole else "Write a plain decimal, such as 12 or 12.5."
    if any(len(digits) > MAX_DIGITS for digits in plain.lstrip("-").split(".")):
        return f"A number has at most {MAX_DIGITS} digits before its point, and after it."
    if plain == text:
        return f"Write it without quotes: {plain}."
    unit = _NUMBER_THEN_UNIT.match(text)
    if unit and unit.group(2).strip() == "%":
        return f"Write the number alone: {plain}, or {Decimal(plain) / 100} where a share is meant."
    return f"Write {plain}."


def _plain_number(text: str) -> str | None:
    unsigned = text.removeprefix("+")
    digits = unsigned.replace("_", "").replace("−", "-")
    if re.fullmatch(r"-?[0-9]{1,20}", digits):
        return str(int(digits))
    if re.fullmatch(r"-?[0-9]{0,20}[.,][0-9]{0,20}", digits) and re.search("[0-9]", digits):
        return f"{Decimal(digits.replace(',', '.')):f}"
    if _EXPONENT.match(digits) and abs(int(re.split("[eE]", digits)[1])) <= 12:
        return f"{Decimal(digits):f}"
    if ":" in digits or digits.lower().startswith("0x"):
        return None
    with_unit = _NUMBER_THEN_UNIT.match(digits)
    return _plain_number(with_unit.group(1)) if with_unit else None


_YES = frozenset(("yes", "y", "on", "true", "1"))
_NO = frozenset(("no", "n", "off", "false", "0"))


def boolean_hint(text: str) -> str:
    """How to write yes or no."""
    word = text.strip().lower()
    quoted = text in ("true", "false")
    if quoted:
        return f"Write it without quotes: {text}."
    meant = "true" if word in _YES else "false" if word in _NO else None
    return f"Write true or false; here {meant}." if meant else "Write true or false."


def text_hint(value: object) -> str:
    """How to write something as text."""
    if isinstance(value, list | dict):
        return "Put the text in quotes if it holds `: ` or starts with `[` or `{`."
    return f'Put it in quotes: "{shown(value)}".'
