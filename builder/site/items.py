"""A question as its page shows it."""

from __future__ import annotations

from builder.questions.item import Item
from builder.words import ENGLISH
from builder.words.numbers import quantity


def texts(item: Item) -> dict[str, str]:
    """The text of each option by its id."""
    return {option.id: option.text for option in item.options}


def keys(item: Item) -> tuple[str, ...]:
    """The ids of the options that hold, for `one` and `several`."""
    return (item.key,) if isinstance(item.key, str) else tuple(str(part) for part in item.key)


def unit(name: str) -> str:
    """A unit as people write it after a number: `°`, `cm`."""
    return quantity(ENGLISH, 0, name).removeprefix("0").strip()
