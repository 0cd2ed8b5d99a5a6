"""An item as the browser's `marking.js` reads it."""

from __future__ import annotations

from fractions import Fraction
from typing import TypedDict

from builder.course import QuestionKind

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
    key: KeyData
    """one: an option id. several, order, pairs: option ids. number: value and tolerance, each a ratio."""


def item_data(item: Item) -> ItemData:
    return {
        "id": item.id,
        "kind": item.kind,
        "objective": item.objective,
        "digest": item.digest,
        "key_digest": item.key_digest,
        "key": key_data(item),
    }


def key_data(item: Item) -> KeyData:
    if isinstance(item.key, str):
        return item.key
    ratios = [ratio(part) for part in item.key if isinstance(part, Fraction)]
    return ratios or [part for part in item.key if isinstance(part, str)]


def ratio(number: Fraction) -> Ratio:
    return (number.numerator, number.denominator)
