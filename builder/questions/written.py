"""Written questions as items: the options in the order shown, and the key that follows from it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from builder.course import Harm, Option, Question
from builder.decide.harm import ActedOn

from .item import Item, ItemOption, Key
from .options import lettered, shown
from .pcg import Pcg32, seed_of

Judge = Callable[[Mapping[str, str], Harm], ActedOn]
"""Judges what an option means, and the harm written of it, for the question's client."""


def item_of(question: Question, judge: Judge | None = None) -> Item:
    """The item of one written question. Without a client to `judge` by, written harm alone counts.

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
    acted = {option.text: _acted(option, judge) for option in question.options}
    options = tuple(
        replace(option, acted=acted.get(option.text))
        for option in lettered(shown(question.id, [option.text for option in question.options]), whys)
    )
    keys = tuple(option.id for option in options if option.text in right)
    if question.kind == "several":
        return _item(question, keys, options)
    return _item(question, keys[0] if keys else "", options)


def _acted(option: Option, judge: Judge | None) -> ActedOn:
    """Of a right option, what leaving it out would do."""
    if option.key:
        return ActedOn("none", written=option.harm)
    return judge(option.means, option.harm) if judge else ActedOn("none", written=option.harm)


def _order(question: Question) -> Item:
    chance = Pcg32(seed_of(question.id))
    places = list(range(len(question.items)))
    order = sorted(places, key=lambda place: (question.items[place], place))
    most = len(places) * (len(places) - 1) // 4
    while True:
        order = chance.shuffled(order)
        if _pairs_in_order(order) <= most:
            break
    options = lettered([question.items[place] for place in order], {})
    return _item(question, tuple(options[order.index(place)].id for place in places), options)


def _pairs_in_order(places: Sequence[int]) -> int:
    return sum(first < then for at, first in enumerate(places) for then in places[at:])


def _pairs(question: Question) -> Item:
    rights = [*(pair.right for pair in question.pairs), *question.spare]
    options = lettered(shown(question.id, rights), {})
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
        case=question.case,
    )
