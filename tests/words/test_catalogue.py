"""One catalogue holds the interface's words, and says them in a course's language where it can."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from babel.messages.pofile import read_po
from click.testing import CliRunner

from builder.cli.main import casetrue
from builder.site import browser_words
from builder.words import ENGLISH, catalogue, words_for

from ..refresh_catalogue import POT, messages, template
from ..site.html_pages import pages
from .pseudo import write_catalogue

PO = r"""
msgid ""
msgstr ""
"Content-Type: text/plain; charset=utf-8\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\n"

msgid "Clients"
msgstr "Kunden"

#, fuzzy
msgid "Search"
msgstr "Sucht"

msgid "Measures"
msgstr ""

msgid "Site"
msgstr "\"Seite\" <b>"

msgid "{number} quiz"
msgid_plural "{number} quizzes"
msgstr[0] "{number} Prüfung"
msgstr[1] "{number} Prüfungen"
"""


@pytest.fixture
def german(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "locales" / "de" / "LC_MESSAGES" / "casetrue.po"
    file.parent.mkdir(parents=True)
    file.write_text(PO, "utf-8")
    monkeypatch.setattr(catalogue, "LOCALES", tmp_path / "locales")


def test_the_list_of_messages_is_fresh() -> None:
    assert POT.read_text("utf-8") == template(), "run .venv/bin/python tests/refresh_catalogue.py"


def test_the_list_of_messages_tells_no_date_and_no_line() -> None:
    text = POT.read_text("utf-8")
    assert not re.search(r"Date|Babel|^#:.*:\d", text, re.MULTILINE)


def test_what_the_browser_says_is_in_the_list() -> None:
    said = {message for message, file in messages() if file.endswith(".js")}
    assert said == set().union(*browser_words.messages().values())


def test_no_word_for_the_educators_desk_is_in_the_list() -> None:
    assert not any(re.match(r"builder/(cli|checks|problems|source)/", file) for _, file in messages())


def test_translations_keep_every_field(tmp_path: Path) -> None:
    write_catalogue(tmp_path)
    for file in [*catalogue.LOCALES.glob("*/LC_MESSAGES/*.po"), *tmp_path.glob("*/LC_MESSAGES/*.po")]:
        with file.open("rb") as source:
            for message in read_po(source):
                known = set(re.findall(r"\{\w+\}", str(message.id)))
                for text in (message.string,) if isinstance(message.string, str) else message.string:
                    assert set(re.findall(r"\{\w+\}", text)) <= known, (file, message.id)


@pytest.mark.parametrize("tag", ["de", "de-AT", "DE-at-1996", "de-x-gym"])
@pytest.mark.usefixtures("german")
def test_the_nearest_language_speaks(tag: str) -> None:
    words = words_for(tag)
    assert words.language == "de"
    assert words.say("Clients") == "Kunden"
    assert words.count("{number} quiz", "{number} quizzes", 1) == "1 Prüfung"
    assert words.count("{number} quiz", "{number} quizzes", 3) == "3 Prüfungen"


@pytest.mark.usefixtures("german")
def test_what_is_not_translated_or_not_sure_stays_english() -> None:
    words = words_for("de")
    assert words.say("Measures") == "Measures"
    assert words.say("Search") == "Search"


@pytest.mark.parametrize("tag", ["en", "en-GB", "fr", "d", "dey", "en-de"])
@pytest.mark.usefixtures("german")
def test_any_other_language_is_answered_in_english(tag: str) -> None:
    assert words_for(tag) is ENGLISH


def build(course: Path, language: str) -> Path:
    path = course / "course.yml"
    path.write_text(path.read_text("utf-8") + f"\nlanguage: {language}\n", "utf-8")
    done = CliRunner().invoke(
        casetrue, ["build", "--course", str(course), "--out", str(course.parent / "site")]
    )
    assert done.exit_code == 0, done.output
    return course.parent / "site"


@pytest.fixture
def course(small_course: Path) -> Path:
    path = small_course / "course.yml"
    path.write_text(re.sub(r"(?m)^language:.*\n", "", path.read_text("utf-8")), "utf-8")
    return small_course


@pytest.mark.usefixtures("german")
def test_a_course_in_a_known_language_speaks_it(course: Path) -> None:
    page = dict(pages(build(course, "de-AT")))["clients/index.html"]
    assert page.get("lang") == "de-AT"
    assert page.findtext(".//h1") == "Kunden"
    assert page.xpath("//nav[@class='around']")[0].get("aria-label") == '"Seite" <b>'
    assert page.xpath("//*[@lang]") == [page]


def test_a_course_in_another_language_is_built_with_english_words_marked_as_such(course: Path) -> None:
    """WCAG 2.2, 3.1.1 and 3.1.2: what surrounds the course's own text says which language it is in."""
    assert not (catalogue.LOCALES / "fo").exists()
    page = dict(pages(build(course, "fo")))["clients/index.html"]
    assert page.get("lang") == "fo"
    assert page.findtext(".//h1") == "Clients"
    assert {
        e.get("lang") for e in page.xpath("//nav | //footer/p[1] | //footer/button | //a[@class='skip']")
    } == {"en"}
