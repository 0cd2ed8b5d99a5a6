"""The order in which options are shown: settled by the question's id and the texts, never by the key."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from .item import ItemOption, option_id
from .numbers import read_number
from .pcg import Pcg32, seed_of


def shown(question: str, texts: Sequence[str]) -> list[str]:
    """The different texts in the order shown: by chance, or by size where all are numbers of one unit."""
    distinct = sorted(set(texts))
    sizes = _sizes(distinct)
    if sizes:
        return sorted(distinct, key=lambda text: (sizes[text], text))
    return Pcg32(seed_of(question)).shuffled(distinct)


def lettered(texts: Sequence[str], whys: Mapping[str, str]) -> tuple[ItemOption, ...]:
    """Options a, b, ... in the order of `texts`, each with the reason that `whys` has for its text."""
    return tuple(ItemOption(option_id(number), text, whys.get(text, "")) for number, text in enumerate(texts))


def _sizes(texts: Sequence[str]) -> dict[str, Fraction]:
    """Text to number, where every text is a number followed by the same unit or none; else empty."""
    sizes: dict[str, Fraction] = {}
    units: set[str] = set()
    for text in texts:
        match = re.fullmatch(r"(.*[0-9])([^0-9]*)", text.strip(), re.DOTALL)
        size = read_number(match[1]) if match else None
        if match is None or size is None:
            return {}
        sizes[text] = size
        units.add(match[2].strip())
    return sizes if len(units) == 1 else {}
