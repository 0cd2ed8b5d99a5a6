"""Markup in a text will be shown as plain text.

What: a text holds an HTML tag, or a link of a kind that pages do not take (only web addresses, mail addresses
and pages of the course are).

Why: nothing that is written in a text can change what a page does, so it is safe to take texts from others.

Example:

    story: Tern is <b>new</b> here.

Cure: write Markdown instead, for example `**new**`. If the sign is meant as it stands, leave it.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..markup import ignored
from ..prose import texts
from ..scope import Fault, Scope

CODE = "markup-ignored"


def check(scope: Scope) -> Iterator[Fault]:
    for text in texts(scope.course):
        found = next(ignored(text.text), None)
        if found is not None:
            shown = found if len(found) <= 40 else found[:39] + "…"
            message = f"`{shown}` will be shown as plain text."
            yield Fault(
                text.place, text.subject, message, "Use Markdown, such as **bold** or [text](address)."
            )
