"""Families of words in Python: the shared tables, and what the Snowball project publishes."""

from __future__ import annotations

import importlib
import json
import sys
from pathlib import Path
from typing import Any

import pytest

from builder.site.word_families import RULES, families, folded, stemmer

HERE = Path(__file__).parent
CASES: dict[str, list[dict[str, Any]]] = json.loads((HERE / "cases.json").read_text("utf-8"))
SAMPLES: dict[str, dict[str, str]] = json.loads((HERE / "snowball.json").read_text("utf-8"))["samples"]


@pytest.mark.parametrize("language", SAMPLES)
def test_stems_are_those_that_the_snowball_project_publishes(language: str) -> None:
    """snowballstem.org, the sample of vocabulary on the page of each algorithm."""
    stem = stemmer(language)
    assert stem is not None
    assert {word: stem(word) for word in SAMPLES[language]} == SAMPLES[language]


@pytest.mark.parametrize("case", CASES["folded"], ids=lambda case: repr(case["text"]))
def test_words_are_seen_as_the_table_says(case: dict[str, Any]) -> None:
    assert folded(case["text"]) == case["words"]


@pytest.mark.parametrize("case", CASES["families"], ids=lambda case: case["name"])
def test_families_are_as_the_table_says(case: dict[str, Any]) -> None:
    made = families(case["language"], case["texts"])
    assert [list(ending) for ending in made.endings] == case["endings"]
    assert {stem: list(numbers) for stem, numbers in made.stems.items()} == case["stems"]


@pytest.mark.parametrize("case", CASES["families"], ids=lambda case: case["name"])
def test_the_table_says_rightly_which_stems_are_those_of_the_rules(case: dict[str, Any]) -> None:
    stem = stemmer(case["language"]) or str
    by_rule = {word: folded(stem(word)) for word in case["as_the_rules"]}
    assert by_rule == {word: [root] for word, root in case["as_the_rules"].items()}


@pytest.mark.parametrize("language", RULES)
def test_every_language_has_the_rules_that_it_names(language: str) -> None:
    stem = stemmer(f"{language.upper()}-x-test")
    assert stem is not None
    assert stem("") == ""


def test_two_spellings_of_one_word_have_one_stem() -> None:
    one, other = families("es", ["mirarán mirara"]), families("es", ["mirara", "mirarán"])
    assert one == other


def test_another_stemmer_on_the_machine_changes_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """The package hands out PyStemmer's rules, of whatever version, where that is installed."""

    class Other:
        algorithms = stemmer = Stemmer = staticmethod(lambda *_: pytest.fail("not asked for"))

    for name in [name for name in sys.modules if name.split(".")[0] == "snowballstemmer"]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "Stemmer", Other)
    importlib.invalidate_caches()
    assert families("en", ["breathing"]).stems == {"breath": (0,)}
