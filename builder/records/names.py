"""A name as it is shown, and when two names are one learner's. The browser's `web/names.js` does the same."""

from __future__ import annotations

import re
import unicodedata

_SPACES = re.compile("[\t-\r\x85\xa0\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000 ]+")
_ODD = re.compile("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
"""What turns the direction of the text around it (Unicode Standard Annex 9), and halves of signs."""
_UNSEEN = re.compile(
    "[\xad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f\u200b-\u200f\u202a-\u202e\u2060-\u206f\u2800\u3164"
    "\ufe00-\ufe0f\ufeff\uffa0\ufff0-\ufff8\U0001bca0-\U0001bca3\U0001d173-\U0001d17a\U000e0000-\U000e0fff]"
)
"""Signs that show nothing: Default_Ignorable_Code_Point of Unicode, and the braille blank."""


def shown(text: str) -> str:
    """A name as typed, without what would turn the text around it; empty where nothing of it can be seen."""
    name = _spaced(_ODD.sub("", text))
    return name if _spaced(_UNSEEN.sub("", name)) else ""


def same(text: str) -> str:
    """What names of one learner have in common: all but capitals, spaces, widths and unseen signs."""
    folded = unicodedata.normalize("NFKC", _UNSEEN.sub("", _ODD.sub("", text)))
    # First up, then down: so that one sharp s and two s are the same, as in the browser.
    return _spaced(folded.upper().lower())


def _spaced(text: str) -> str:
    return _SPACES.sub(" ", text).strip(" ")
