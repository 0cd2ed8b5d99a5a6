"""Every word of the interface passes through `Words.say` or `Words.count`, so that one catalogue holds them all.

What the educator wrote is never translated; only our own words are.
"""

from __future__ import annotations

import gettext


class Words:
    """Says the interface's words in one language.

    The English text is the message id (GNU gettext's habit), so the code reads as what people see.
    """

    def __init__(self, translations: gettext.NullTranslations, language: str) -> None:
        self._translations = translations
        self.language = language

    def say(self, message: str, /, **values: object) -> str:
        """The words for `message`, with `{name}` fields filled from `values`."""
        text = self._translations.gettext(message)
        return text.format(**values) if values else text

    def count(self, one: str, many: str, number: int, /, **values: object) -> str:
        """As `say`, in the plural form for `number`; `{number}` is filled in."""
        return self._translations.ngettext(one, many, number).format(number=number, **values)


ENGLISH = Words(gettext.NullTranslations(), "en")
