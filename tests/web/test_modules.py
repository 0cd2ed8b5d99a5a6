"""The browser's pure modules, run by Node, and the words that they say."""

from __future__ import annotations

import gettext
import json
import re
from pathlib import Path

import pytest

from builder.site.browser_words import LIST, browser_words
from builder.words import ENGLISH, Words

from ..node import run_node_tests
from ..refresh_catalogue import SCRIPTS, browser_list, modules, said

HERE = Path(__file__).parent
WEB = HERE.parents[1] / "builder" / "site" / "web"


def test_the_pure_modules() -> None:
    run_node_tests(HERE / "modules.test.js", 15)


@pytest.mark.parametrize("module", sorted(WEB.glob("*.js")), ids=lambda module: module.name)
def test_a_module_says_plain_texts_alone(module: Path) -> None:
    text = module.read_text("utf-8")
    assert len(said(text)) == len(re.findall(r"(?<!function )\bsay\(", text))


@pytest.mark.parametrize("module", sorted(WEB.glob("*.js")), ids=lambda module: module.name)
def test_a_module_fills_every_field_that_it_says(module: Path) -> None:
    text = module.read_text("utf-8")
    beside = text
    for message in said(text):
        beside = beside.replace(json.dumps(message, ensure_ascii=False), "")
    for message in said(text):
        for field in re.findall(r"\{(\w+)\}", message):
            assert re.search(rf"\b{field}\b", beside), (message, field)


def test_the_list_of_what_each_script_says_is_fresh() -> None:
    assert LIST.read_text("utf-8") == browser_list(), "run .venv/bin/python tests/refresh_catalogue.py"


def test_every_module_belongs_to_a_script_and_each_script_is_bundled_from_it() -> None:
    assert set().union(*map(modules, SCRIPTS.values())) == {module.name for module in WEB.glob("*.js")}
    assert {f"{name}.js" for name in SCRIPTS} == {file.name for file in (WEB / "dist").glob("*.js")}


def test_only_translated_messages_travel() -> None:
    class Loud(gettext.NullTranslations):
        def gettext(self, message: str) -> str:
            return message.upper()

    loud = Words(Loud(), "xx")
    assert browser_words(ENGLISH) == {} == browser_words(ENGLISH, "walk")
    assert browser_words(loud, "walk")["Next"] == "NEXT"
    assert browser_words(loud, "walk").items() > browser_words(loud).items()
    assert "Next" not in browser_words(loud, "record"), "a page carries the words of its own scripts alone"
