"""What stands before what in a list that people read, by the language's own alphabet."""

from __future__ import annotations

import unicodedata

from .catalogue import Words

_LETTERS = {"es": {"ñ": "n"}}
"""Language to its letters beyond a to z, each with the one that it follows. Unicode CLDR, collation of `es`:
`&N<ñ<<<Ñ`. All other accents are told apart only where words are else alike, as in the Unicode Collation
Algorithm (Unicode Technical Standard 10)."""
_LAST = "\U0010ffff"
"""Sorts behind every letter."""


def sorting_key(words: Words, text: str) -> tuple[str, str, str]:
    """Compares letters first, then accents, then capitals."""
    own = _LETTERS.get(words.language.partition("-")[0], {})
    small = unicodedata.normalize("NFC", text).casefold()
    letters = "".join(own[letter] + _LAST if letter in own else _bare(letter) for letter in small)
    return letters, unicodedata.normalize("NFD", small), text


def _bare(letter: str) -> str:
    """Without its accents."""
    return "".join(part for part in unicodedata.normalize("NFD", letter) if not unicodedata.combining(part))
