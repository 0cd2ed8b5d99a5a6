"""Every word of the interface passes through `Words.say` or `Words.count`: one catalogue holds them all.

What the educator wrote is never translated; only our own words are. `casetrue.pot` beside this file lists
the messages, and `locales/<language>/LC_MESSAGES/casetrue.po` says them in another language; both are files
of GNU gettext.
"""

from __future__ import annotations

import gettext
import io
from functools import cache
from pathlib import Path

ROOT = "en"
"""The language of the messages themselves."""
REVIEWED: frozenset[str] = frozenset()
"""The languages whose words a coach who speaks them has read and found right. Pages in any other but `ROOT`
say that nobody has. A tag belongs here only once somebody did, and the commit says who."""


def phrase(message: str) -> str:
    """The message itself: a text that is said later, marked so that the catalogue finds it."""
    return message


class Words:
    """Says the interface's words in one language.

    The English text is the message id (GNU gettext's habit), so the code reads as what people see.
    """

    def __init__(self, translations: gettext.NullTranslations, language: str) -> None:
        """`language` is a BCP 47 tag."""
        self._translations = translations
        self._said = cache(translations.gettext)
        self.language = language

    @property
    def unreviewed(self) -> str:
        """That no coach who speaks the language has read these words; empty where one has, and for `ROOT`."""
        if self.language == ROOT or self.language in REVIEWED:
            return ""
        return self.say(
            "The words around the course have been translated. No coach who speaks this language has "
            "reviewed them."
        )

    def say(self, message: str, /, **values: object) -> str:
        """The words for `message`, with `{name}` fields filled from `values`."""
        text = self._said(message)
        return text.format(**values) if values else text

    def count(self, one: str, many: str, number: int, /, **values: object) -> str:
        """As `say`, in the plural form for `number`; `{number}` is filled in."""
        return self._translations.ngettext(one, many, number).format(number=number, **values)


ENGLISH = Words(gettext.NullTranslations(), ROOT)
LOCALES = Path(__file__).parent / "locales"


def words_for(language: str) -> Words:
    """The words for a course in this language, a BCP 47 tag; English where no catalogue is near."""
    tag = nearest(language)
    return Words(_translations(_catalogues()[tag]), tag) if tag and tag != ROOT else ENGLISH


def nearest(language: str) -> str | None:
    """The language that there are words in, by the look-up of RFC 4647: `pt-br`, else `pt`; else None."""
    there = {ROOT, *_catalogues()}
    tag = language.lower()
    while tag and tag not in there:
        tag = tag.rpartition("-")[0].removesuffix("-x")
    return tag or None


def _catalogues() -> dict[str, Path]:
    """The file of every language, by its tag in small letters."""
    files = LOCALES.glob("*/LC_MESSAGES/casetrue.po")
    return {file.parts[-3].replace("_", "-").lower(): file for file in files}


def _translations(file: Path) -> gettext.GNUTranslations:
    """Compiled in memory; fuzzy messages stay English, as with every gettext tool."""
    from babel.messages.mofile import write_mo  # only courses in another language need it
    from babel.messages.pofile import read_po

    with file.open("rb") as read:
        catalogue = read_po(read)
    compiled = io.BytesIO()
    write_mo(compiled, catalogue)
    compiled.seek(0)
    return gettext.GNUTranslations(compiled)
