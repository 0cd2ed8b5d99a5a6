"""Every word of the interface passes through `Words.say` or `Words.count`: one catalogue holds them all.

What the educator wrote is never translated; only our own words are. `casetrue.pot` beside this file lists
the messages, and `locales/<language>/LC_MESSAGES/casetrue.po` says them in another language; both are files
of GNU gettext.
"""

from __future__ import annotations

import gettext
import io
from datetime import date
from functools import cache, cached_property
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from babel.core import Locale

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

    def __init__(self, translations: gettext.NullTranslations, language: str, course: str = "") -> None:
        """`language` is a BCP 47 tag, and `course` that of the course, which may say a region too."""
        self._translations = translations
        self._said = cache(translations.gettext)
        self.language = language
        self.course = course or language

    @cached_property
    def decimal(self) -> str:
        """What stands before decimals, by the Unicode CLDR: a comma in `es`, a point in `es-MX`."""
        if self.language == ROOT:
            return "."
        from babel.numbers import get_decimal_symbol  # as below

        return get_decimal_symbol(locale_of(self.course, self.language))

    def day(self, day: str) -> str:
        """A day, `2026-03-09`, as people write it: by the Unicode CLDR, and in English as it stands."""
        if self.language == ROOT:
            return day
        from babel.dates import format_date  # as below

        try:
            return format_date(date.fromisoformat(day), locale=locale_of(self.course, self.language))
        except ValueError:  # no day of the calendar, which a check says
            return day

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
    if tag is None or tag == ROOT:
        return ENGLISH
    return Words(_translations(_catalogues()[tag]), tag, language)


def locale_of(*languages: str) -> Locale:
    """What the Unicode CLDR says of the first of these BCP 47 tags that it knows, else of English."""
    from babel.core import Locale  # as below
    from babel.localedata import locale_identifiers

    tags = [language.replace("-", "_") for language in languages]
    return Locale.negotiate(tags, locale_identifiers()) or Locale(ROOT)


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
