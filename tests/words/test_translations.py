"""Every translation says all that the interface says, with the same fields and the right plural forms."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from babel.core import Locale
from babel.messages.catalog import Message
from babel.messages.plurals import get_plural
from babel.messages.pofile import read_po

from builder.words import ENGLISH, catalogue, words_for

from ..refresh_catalogue import translation

FILES = sorted(catalogue.LOCALES.glob("*/LC_MESSAGES/casetrue.po"))
ALIKE = {"es": {"no", "{first} et al.", "{minutes} min"}}
"""Words that are the same in English."""
HOW = "To add them: .venv/bin/python tests/refresh_catalogue.py, then fill in what is empty in"

each_language = pytest.mark.parametrize("file", FILES, ids=lambda file: file.parts[-3])


def read(file: Path) -> list[Message]:
    with file.open("rb") as source:
        return [message for message in read_po(source) if message.id]


def texts(message: Message) -> list[tuple[str, str]]:
    """Each form in English and as it is said."""
    if isinstance(message.id, tuple):
        one, many = message.id
        return [(one if place == 0 else many, text) for place, text in enumerate(message.string)]
    return [(message.id, message.string)]


def fields(text: str) -> set[str]:
    return set(re.findall(r"\{\w+\}", text))


def test_there_is_spanish() -> None:
    assert [file.parts[-3] for file in FILES] == ["es"]


@each_language
def test_every_message_is_translated(file: Path) -> None:
    said = {
        message.id for message in read(file) if all(text for _, text in texts(message)) and not message.fuzzy
    }
    with (catalogue.LOCALES.parent / "casetrue.pot").open("rb") as template:
        missing = [str(message.id) for message in read_po(template) if message.id and message.id not in said]
    assert not missing, "\n".join(["No translation of:", *missing, f"{HOW} {file}"])


@each_language
def test_the_file_is_fresh(file: Path) -> None:
    assert file.read_text("utf-8") == translation(file), "run .venv/bin/python tests/refresh_catalogue.py"


@each_language
def test_every_form_keeps_its_fields(file: Path) -> None:
    """By Babel's own checkers too, which know how many forms a language has."""
    with file.open("rb") as source:
        written = read_po(source)
    for message in written:
        message.flags.discard("python-format")  # Babel takes a bare per cent sign for an older kind of field
        assert not message.check(written), message.id
    for message in read(file):
        assert all(fields(text) == fields(english) for english, text in texts(message)), message.id


@each_language
def test_signs_at_the_ends_stay(file: Path) -> None:
    """What follows a text on a page counts on its colon or full stop; words inside a sentence stay small."""
    for message in read(file):
        for english, text in texts(message):
            assert text.strip() == text, message.id
            for sign in ".:":
                assert text.endswith(sign) == english.endswith(sign), message.id
            if english[0].isalpha() and text[0].isalpha():
                assert text[0].isupper() == english[0].isupper(), message.id


@each_language
def test_no_message_is_left_in_english(file: Path) -> None:
    same = {english for message in read(file) for english, text in texts(message) if english == text}
    assert {text for text in same if re.search("[A-Za-z]", re.sub(r"\{\w+\}", "", text))} == ALIKE[
        file.parts[-3]
    ]


@each_language
def test_the_plural_rule_is_that_of_the_cldr(file: Path) -> None:
    """Unicode CLDR, plural rules, as Babel carries them, for counts up to a thousand. For Spanish they have a
    form `many` besides, for a million and more, which GNU gettext's two forms leave out; nothing here is
    counted so far."""
    locale = Locale.parse(file.parts[-3])
    with file.open("rb") as source:
        written = read_po(source)
    assert written.num_plurals == get_plural(locale).num_plurals
    words = words_for(file.parts[-3])
    message = next(one for one in read(file) if isinstance(one.id, tuple) and fields(one.id[0]))
    for number in range(1001):
        form = 0 if locale.plural_form(number) == "one" else 1
        assert words.count(*message.id, number) == message.string[form].format(number=number)


def test_spanish_puts_a_space_before_the_sign_for_per_cent() -> None:
    """Unicode CLDR, Spanish, per cent: `#,##0 %` with a space that does not break."""
    pattern = Locale.parse("es").percent_formats[None].pattern
    assert pattern == "#,##0\N{NO-BREAK SPACE}%"
    for message in read(FILES[0]):
        for _, text in texts(message):
            assert not re.search(r"[^\N{NO-BREAK SPACE}]%", text), message.id


def test_english_says_nothing_of_a_review_and_spanish_says_that_there_was_none() -> None:
    assert ENGLISH.unreviewed == words_for("en-GB").unreviewed == words_for("fo").unreviewed == ""
    assert words_for("es-MX").unreviewed.endswith("Nadie que entrene y hable español las ha revisado.")


def test_a_language_that_was_reviewed_says_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(catalogue, "REVIEWED", frozenset({"es"}))
    assert words_for("es").unreviewed == ""
