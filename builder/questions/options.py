"""The order in which options are shown: settled by the question's id and the texts, never by the key."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from .item import ItemOption, option_id
from .numbers import read_number
from .pcg import Pcg32, seed_of


def shown(question: str, texts: Sequence[str]) -> list[str]:
    """The different texts in the order shown: by chance, or by size where all are numbers or ranges of one
    unit."""
    distinct = sorted(set(texts))
    known = sizes(distinct)
    if known:
        return sorted(distinct, key=lambda text: (known[text], text))
    return Pcg32(seed_of(question)).shuffled(distinct)


def lettered(texts: Sequence[str], whys: Mapping[str, str]) -> tuple[ItemOption, ...]:
    """Options a, b, ... in the order of `texts`, each with the reason that `whys` has for its text."""
    return tuple(ItemOption(option_id(number), text, whys.get(text, "")) for number, text in enumerate(texts))


_ALONE = re.compile(r"(?P<number>.*[0-9])(?P<unit>[^0-9]*)", re.DOTALL)
_RANGE = re.compile(
    r"(?P<number>[0-9]+(?:[.,][0-9]+)?)[^0-9]{0,12}?(?: to |\s?[-\u2013]\s?)[0-9]+(?:[.,][0-9]+)?"
    r"(?P<unit>[^0-9]*)"
)


def sizes(texts: Sequence[str]) -> dict[str, Fraction]:
    """Text to number, where every text is a number, or every text a range such as `10 to 19`, followed by the
    same unit or none; else empty. A range counts by its lower end."""
    return _sizes(texts, _ALONE) or _sizes(texts, _RANGE)


def _sizes(texts: Sequence[str], form: re.Pattern[str]) -> dict[str, Fraction]:
    found: dict[str, Fraction] = {}
    units: set[str] = set()
    for text in texts:
        match = form.fullmatch(text.strip())
        size = read_number(match["number"]) if match else None
        if match is None or size is None:
            return {}
        found[text] = size
        units.add(match["unit"].strip())
    return found if len(units) == 1 else {}
