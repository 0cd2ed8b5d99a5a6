"""The nearest valid choice to a word that is none."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


def nearest_word(word: str, choices: Iterable[str]) -> str | None:
    """The choice that the word was most likely meant to be, if any; capitals, `-` and `_` count not."""
    flat = {_flat(choice): choice for choice in choices}
    near = get_close_matches(_flat(word)[:200], flat, 1, 0.65)
    return flat[near[0]] if near else None


def _flat(word: str) -> str:
    return word.casefold().replace("-", "_").replace(" ", "_")
