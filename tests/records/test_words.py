"""The words that the page of the record hands to the browser."""

from __future__ import annotations

import gettext
import re
from pathlib import Path

from builder.records.reading import LARGEST, MOST
from builder.site.record_words import record_words
from builder.words import ENGLISH, Words

WEB = Path(__file__).parents[2] / "builder" / "site" / "web"


def read(module: str) -> str:
    return (WEB / module).read_text("utf-8")


def test_every_key_is_said_and_has_words() -> None:
    texts = [read("record-views.js"), read("record-element.js")]
    said = {key for text in texts for key in re.findall(r'\btell\(\s*"(\w+)"', text)}
    assert sum(len(re.findall(r"\btell\(", text)) for text in texts) > len(said)
    reasons = re.search(r"@typedef \{(\"size\".*)\} Reason", read("exchange.js"))
    assert reasons
    refused = {f"no_{reason}" for reason in re.findall(r'"(\w+)"', reasons[1])}
    assert said | refused == record_words(ENGLISH).keys()


def test_fields_are_those_that_the_browser_fills() -> None:
    texts = read("record-views.js") + read("record-element.js")
    for words in record_words(ENGLISH).values():
        for field in re.findall(r"\{(\w+)\}", words):
            assert re.search(rf"\b{field}\b", texts), field


def test_words_pass_through_the_catalogue() -> None:
    class Shouting(gettext.NullTranslations):
        def gettext(self, message: str) -> str:
            return message.upper()

    assert all(words == words.upper() for words in record_words(Words(Shouting(), "en")).values())


def test_both_readers_have_the_same_limits() -> None:
    assert f"LARGEST = {LARGEST:_};" in read("exchange.js")
    assert f"MOST = {MOST};" in read("record.js")
