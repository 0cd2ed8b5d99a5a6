"""The interface has no words in the course's language.

What: `language` in course.yml names a language that buttons and headings are not translated to. They appear
in English around your own text.

Why: a learner who reads only your language may miss what a button does, and screen readers read each language
in its own voice, so they are told which is which.

Example:

    language: fo           # there is no catalogue for Faroese

Cure: nothing has to be done; the course works. All words can be translated in one file: DEVELOPERS.md says
how. If the course is in English, write `language: en`.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.words import nearest

from ..scope import Fault, Scope

CODE = "words-missing"


def check(scope: Scope) -> Iterator[Fault]:
    about = scope.course.about
    if not scope.about_unread and nearest(about.language) is None:
        message = f"Buttons and headings have no words in “{about.language}” yet, so they appear in English."
        hint = "The course works as it is, with your own text in your language."
        yield Fault(about.origin.at("language"), f"course:{about.name}", message, hint)
