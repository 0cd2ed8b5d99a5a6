"""Whether a text shows a word of the interface in English, on a page that should speak Spanish."""

from __future__ import annotations

import re
from collections.abc import Iterable

from babel.messages.pofile import read_po

from builder.words import words_for

from .pseudo import POT

LONG = 12
"""A message with that many plain letters is known wherever it stands; a shorter one only as a whole text."""


def _patterns() -> tuple[list[re.Pattern[str]], frozenset[str]]:
    words = words_for("es")
    with POT.open("rb") as file:
        ids = [text for message in read_po(file) for text in _forms(message.id) if text]
    long, short = [], set()
    for text in ids:
        plain = re.split(r"\{\w+\}", text)
        if words.say(text) == text or not re.search("[A-Za-z]", "".join(plain)):
            continue
        if len(plain) == 1 and len(text) < LONG:
            short.add(text)
        elif sum(map(len, plain)) >= LONG:
            long.append(re.compile(".+".join(map(re.escape, plain))))
        else:
            short.add(text)
    return long, frozenset(short)


def _forms(said: object) -> tuple[str, ...]:
    return said if isinstance(said, tuple) else (str(said),)


def english(texts: Iterable[str]) -> list[str]:
    """The texts that are a message of the catalogue, or hold a long one, in English."""
    long, short = _patterns()
    shown = {" ".join(text.split()) for text in texts}
    return sorted(text for text in shown if text in short or any(one.search(text) for one in long))
