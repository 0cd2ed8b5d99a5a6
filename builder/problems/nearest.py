"""The nearest valid choice to a word that is none."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


def nearest_words(word: str, choices: Iterable[str], most: int = 1) -> list[str]:
    """The choices that the word was most likely meant to be, best first; capitals, `-` and `_` count not."""
    flat = {_flat(choice): choice for choice in choices}
    near = get_close_matches(_flat(word)[:200], flat, most, 0.65)
    return [flat[one] for one in near]


def _flat(word: str) -> str:
    return word.casefold().replace("-", "_").replace(" ", "_")
