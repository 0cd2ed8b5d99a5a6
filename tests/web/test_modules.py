"""The browser's pure modules, run by Node, and the words that they say."""

from __future__ import annotations

import gettext
import json
import re
from pathlib import Path

from builder.site.browser_words import MESSAGES, browser_words
from builder.words import ENGLISH, Words

from ..node import run_node_tests

HERE = Path(__file__).parent
WEB = HERE.parents[1] / "builder" / "site" / "web"

# Reference value ci-wilson-cp. Source: the first four are the examples of Newcombe, Stat Med 1998;17:857-872
# (remembered); all computed with statsmodels' proportion_confint and R's prop.test, which agree.
WILSON = [
    [81, 263, 0.25529, 0.36621],
    [15, 148, 0.06239, 0.16049],
    [0, 20, 0.0, 0.16113],
    [1, 29, 0.00611, 0.17176],
    [5, 25, 0.08861, 0.39131],
    [18, 20, 0.69897, 0.97213],
    [10, 10, 0.72247, 1.0],
]


def test_the_pure_modules() -> None:
    run_node_tests(HERE / "modules.test.js", 8, INTERVALS=json.dumps(WILSON))


def said(module: Path) -> list[str]:
    """What a module says, with how often it calls `say` to see that none escapes the list."""
    text = module.read_text("utf-8")
    messages = re.findall(r'\bsay\(\s*"((?:[^"\\]|\\.)*)"', text)
    calls = len(re.findall(r"(?<!function )\bsay\(", text))
    assert len(messages) == calls, f"{module.name}: say() with something other than a plain text"
    return messages


def test_the_page_hands_over_every_message_that_the_modules_say() -> None:
    found = {message for module in WEB.glob("*.js") for message in said(module)}
    assert sorted(found) == list(MESSAGES)


def test_only_translated_messages_travel() -> None:
    class Loud(gettext.NullTranslations):
        def gettext(self, message: str) -> str:
            return message.upper()

    assert browser_words(ENGLISH) == {}
    assert browser_words(Words(Loud(), "xx"))["Go on"] == "GO ON"
