"""Written questions as items: the options in the order shown, and the key that follows from it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from builder.course import Question

from .item import Item, ItemOption, Key, option_id
from .numbers import read_number
from .pcg import Pcg32, seed_of


def item_of(question: Question) -> Item:
    """The item of one written question.

    The options stand in an order drawn by chance from the question's id and their texts alone, so that where
    the educator wrote the key tells nothing; options that are all numbers stand by size. Steps to be put in
    order are drawn again until leaving them as they stand earns nothing.
    """
    if question.kind == "number":
        return _item(question, (question.answer or Fraction(0), question.within))
    if question.kind == "order":
        return _order(question)
    if question.kind == "pairs":
        return _pairs(question)
    whys = {option.text: option.why for option in question.options}
    right = {option.text for option in question.options if option.key}
    options = _options(_shown(question.id, [option.text for option in question.options]), whys)
    keys = tuple(option.id for option in options if option.text in right)
    if question.kind == "several":
        return _item(question, keys, options)
    return _item(question, keys[0] if keys else "", options)


def _order(question: Question) -> Item:
    chance = Pcg32(seed_of(question.id))
    places = list(range(len(question.items)))
    shown = sorted(places, key=lambda place: (question.items[place], place))
    while True:
        shown = chance.shuffled(shown)
        if _pairs_in_order(shown) * 2 <= len(shown) * (len(shown) - 1) // 2 or len(shown) < 2:
            break
    options = _options([question.items[place] for place in shown], {})
    return _item(question, tuple(options[shown.index(place)].id for place in places), options)


def _pairs_in_order(places: Sequence[int]) -> int:
    return sum(first < then for at, first in enumerate(places) for then in places[at + 1 :])


def _pairs(question: Question) -> Item:
    rights = [*(pair.right for pair in question.pairs), *question.spare]
    options = _options(_shown(question.id, rights), {})
    ids = {option.text: option.id for option in options}
    key = tuple(ids[pair.right] for pair in question.pairs)
    return _item(question, key, options, tuple(pair.left for pair in question.pairs))


def _item(
    question: Question, key: Key, options: tuple[ItemOption, ...] = (), lefts: tuple[str, ...] = ()
) -> Item:
    return Item(
        id=question.id,
        kind=question.kind,
        objective=question.objective,
        stem=question.stem,
        key=key,
        options=options,
        lefts=lefts,
        unit=question.unit,
        why=question.why,
        source=question.source,
    )


def _options(texts: Sequence[str], whys: dict[str, str]) -> tuple[ItemOption, ...]:
    return tuple(ItemOption(option_id(number), text, whys.get(text, "")) for number, text in enumerate(texts))


def _shown(question: str, texts: Sequence[str]) -> list[str]:
    """The different texts in the order shown."""
    distinct = sorted(set(texts))
    sizes = _sizes(distinct)
    if sizes:
        return sorted(distinct, key=lambda text: (sizes[text], text))
    return Pcg32(seed_of(question)).shuffled(distinct)


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
