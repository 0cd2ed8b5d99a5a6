"""A question as its page shows it."""

from __future__ import annotations

from builder.questions.figures import LookFigure, ReadingFigure
from builder.questions.item import Item
from builder.words import ENGLISH
from builder.words.numbers import quantity


def texts(item: Item) -> dict[str, str]:
    """The text of each option by its id."""
    return {option.id: option.text for option in item.options}


def look(item: Item) -> LookFigure | None:
    """What of a drill is looked at to answer; None for any other question."""
    return item.figure if isinstance(item.figure, LookFigure) else None


def trial(item: Item) -> ReadingFigure | None:
    """The trial that is read off to answer; None for any other question."""
    return item.figure if isinstance(item.figure, ReadingFigure) else None


def keys(item: Item) -> tuple[str, ...]:
    """The ids of the options that hold, for `one` and `several`."""
    return (item.key,) if isinstance(item.key, str) else tuple(str(part) for part in item.key)


def unit(name: str) -> str:
    """A unit as people write it after a number: `°`, `cm`."""
    return quantity(ENGLISH, 0, name).removeprefix("0").strip()
