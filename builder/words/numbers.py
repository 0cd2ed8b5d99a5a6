"""How numbers look: exact, no trailing zeros, a true minus sign, and the unit set as people write it."""

from __future__ import annotations

import math
from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache

from .catalogue import Words

MINUS = "\u2212"
ANGLES = ("deg", "degree", "degrees", "°")
_SHARES = ("%", "percent")
_PLACES = 2
"""Where a fraction has no end in decimals, for example a third."""


def number(words: Words, value: Fraction | int | float, places: int | None = None) -> str:
    """A number in decimals, with the decimal mark of the words: exact where that ends, else to two places;
    with `places` rounded to at most that many. Halves round away from zero. Raises ValueError for infinity
    and not-a-number."""
    ratio = _shortest(value) if isinstance(value, float) else value.as_integer_ratio()
    return _written(*ratio, places).replace(".", words.decimal)


@lru_cache(maxsize=4096)
def _shortest(value: float) -> tuple[int, int]:
    """The shortest decimal that is read as this float, as a fraction."""
    if not math.isfinite(value):
        raise ValueError("only finite numbers can be shown")
    return Fraction(str(value)).as_integer_ratio()


@lru_cache(maxsize=4096)  # the same few numbers are said on every page; whole numbers are quick to look up
def _written(top: int, bottom: int, places: int | None) -> str:
    if places is None:
        places = _decimals(bottom)
    # floor(|number| * 10^places + 1/2) in whole numbers
    scaled = (2 * abs(top) * 10**places + bottom) // (2 * bottom)
    digits = str(scaled).rjust(places + 1, "0")
    whole, part = (digits[:-places], digits[-places:].rstrip("0")) if places else (digits, "")
    sign = MINUS if top < 0 and scaled else ""
    return f"{sign}{whole}.{part}" if part else f"{sign}{whole}"


def listed(words: Words, values: Iterable[Fraction]) -> str:
    """Numbers one after the other: `31, 33, 32`."""
    return separated(number(words, value) for value in values)


def separated(shown: Iterable[str]) -> str:
    """Numbers as they are shown, one after the other; where one has a comma in it, semicolons part them."""
    several = list(shown)
    return ("; " if any("," in one for one in several) else ", ").join(several)


def quantity(words: Words, value: Fraction | int | float, unit: str, places: int | None = None) -> str:
    """A number with its unit: `112°`, `3.5 cm`, `12 breaths/min`; without a unit the number alone."""
    shown = number(words, value, places)
    if unit in ANGLES:
        return f"{shown}°"
    if unit in _SHARES:
        return words.say("{share}%", share=shown)
    return f"{shown} {unit}" if unit else shown


def percent(words: Words, share: float) -> str:
    """In whole per cent, never rounded up, so that what is shown as a pass mark is one."""
    return words.say("{share}%", share=int(100 * share + 1e-9))


def span(
    words: Words,
    low: Fraction | int | float,
    high: Fraction | int | float,
    unit: str,
    places: int | None = None,
) -> str:
    """Both ends of a range, the unit once: `118 to 119°`; one end alone where they are the same. `places` as
    for `number`."""
    if low == high:
        return quantity(words, low, unit, places)
    to = words.say("to")
    return f"{number(words, low, places)} {to} {quantity(words, high, unit, places)}"


def _decimals(denominator: int) -> int:
    """How many decimal places write the fraction exactly; two where no number of them does."""
    twos = fives = 0
    while denominator % 2 == 0:
        denominator, twos = denominator // 2, twos + 1
    while denominator % 5 == 0:
        denominator, fives = denominator // 5, fives + 1
    return max(twos, fives) if denominator == 1 else _PLACES
