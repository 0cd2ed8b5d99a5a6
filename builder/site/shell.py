"""The shell method: the theme draws one page around marks, and every client's page is filled into it.

Pages outside the navigation differ in nothing but their title, address, description, source and body, so
that a theme need not be run for each. The shell is drawn anew in every build; nothing in it can go stale.
"""

from __future__ import annotations

import html
import posixpath
import re
from dataclasses import dataclass
from urllib.parse import quote

from .page import Page

TITLE = "casetrue-mark-title"
STEM = "casetrue-mark-stem"
"""Stands for the file name without its ending, so that the theme builds addresses around it."""
DESCRIPTION = "casetrue-mark-description"
SOURCE = "casetrue-mark-source"
BODY = "<h1>casetrue-mark-body</h1>"
"""A theme that adds a heading to a page without one must find a heading here."""

_MARKS = re.compile(
    "(" + "|".join(re.escape(mark) for mark in (TITLE, STEM, DESCRIPTION, SOURCE, BODY)) + ")"
)


@dataclass(frozen=True, slots=True)
class Shell:
    """A page cut at its marks: text and marks in turn."""

    parts: tuple[str, ...]

    @classmethod
    def cut(cls, drawn: str) -> Shell:
        """Raises ValueError unless the theme kept the place for the body exactly once."""
        parts = tuple(_MARKS.split(drawn))
        if parts.count(BODY) != 1:
            raise ValueError(
                "The theme does not show a page's content as it is, so client pages cannot be made."
            )
        return cls(parts)

    def fill(self, page: Page) -> str:
        """The whole page."""
        stem = posixpath.splitext(posixpath.basename(page.uri))[0]
        values = {
            TITLE: html.escape(page.title),
            STEM: quote(stem),
            DESCRIPTION: html.escape(page.description),
            SOURCE: quote(page.source or ""),
            BODY: page.draw(),
        }
        return "".join(values.get(part, part) for part in self.parts)
