"""The words that the browser part says. A page hands them over as one inert block, see `web/words.js`."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

from builder.words import Words

LIST = Path(__file__).parent / "web" / "dist" / "words.json"
"""Script to the messages that its modules say, in order; `tests/refresh_catalogue.py` writes it."""


@cache
def messages() -> dict[str, list[str]]:
    listed: dict[str, list[str]] = json.loads(LIST.read_text("utf-8"))
    return listed


def browser_words(words: Words, script: str = "casetrue") -> dict[str, str]:
    """Message to translation, for those that differ: a message without one is its own words. `script` is what
    a page runs, or loads later, beside what every page runs; spaces between several."""
    said = sorted({message for one in ("casetrue", *script.split()) for message in messages()[one]})
    told = {message: words.say(message) for message in said}
    return {message: text for message, text in told.items() if text != message}
