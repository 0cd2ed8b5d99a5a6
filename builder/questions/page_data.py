"""An item as the browser's `marking.js` reads it."""

from __future__ import annotations

from fractions import Fraction
from typing import TypedDict

from builder.course import QuestionKind
from builder.decide.harm import Told

from .item import Item

Ratio = tuple[int, int]
"""An exact number: numerator and denominator, the denominator above 0."""

KeyData = str | list[str] | list[Ratio]


class ItemData(TypedDict):
    """What marking and the record need; no prose."""

    id: str
    kind: QuestionKind
    objective: str
    digest: str
    key_digest: str
    unit: str
    """What is learnt."""
    client: str | None
    stops: list[str]
    """Where the right answer sends the client on: the ids of all options that do."""
    key: KeyData
    """one: an option id. several, order, pairs: option ids. number: value and tolerance, each a ratio."""
    harm: dict[str, Told]
    """Option id to the harm of acting on it; harmless ones are left out."""
    breaks: dict[str, list[str]]
    """Option id to the cautions that acting on it breaks; without any it is left out."""


def item_data(item: Item) -> ItemData:
    return {
        "id": item.id,
        "kind": item.kind,
        "objective": item.objective,
        "digest": item.digest,
        "key_digest": item.key_digest,
        "unit": item.learnt,
        "client": item.case,
        "stops": list(item.stops),
        "key": key_data(item),
        "harm": {option.id: option.harm for option in item.options if option.harm != "none"},
        "breaks": {
            option.id: option.acted.cautions
            for option in item.options
            if option.acted and option.acted.breaks
        },
    }


def key_data(item: Item) -> KeyData:
    if isinstance(item.key, str):
        return item.key
    ratios = [ratio(part) for part in item.key if isinstance(part, Fraction)]
    return ratios or [part for part in item.key if isinstance(part, str)]


def ratio(number: Fraction) -> Ratio:
    return (number.numerator, number.denominator)
