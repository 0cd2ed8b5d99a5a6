"""What the theme asks for around a page body. Themes see it as `casetrue`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from builder.answers import addresses

from . import shell
from .page import Page
from .site import Site

if TYPE_CHECKING:
    from mkdocs.structure.pages import Page as MkDocsPage

Link = tuple[str, str]
"""Address from the site's root, and label."""


class Frame:
    def __init__(self, site: Site, pages: Mapping[str, Page]) -> None:
        self._pages = pages
        self._lessons = [(addresses.lesson(lesson.file), lesson.title) for lesson in site.lessons]
        self._client = next((page for page in pages.values() if page.grows), None)
        self._words = site.words
        self.description = site.description
        """Of a page that says nothing of itself."""
        self.language = site.course.about.language
        spoken = site.words.language
        self.spoken = "" if spoken.partition("-")[0] == self.language.lower().partition("-")[0] else spoken
        """The language of the interface where it is not the course's own, for lack of a catalogue."""
        self.unreviewed = site.words.unreviewed
        """That the interface's words have been reviewed by no coach who speaks them, where that is so."""
        self.version = site.course.about.version
        self.edition = site.edition_said

    def say(self, message: str, /, **values: object) -> Markup:
        """The interface's words, safe in text and attributes: themes do not escape by themselves."""
        return escape(self._words.say(message, **values))

    def _of(self, page: MkDocsPage | None) -> Page | None:
        if page is None:
            return None
        return self._client if page.file.name == shell.STEM else self._pages.get(page.file.dest_uri)

    def kind(self, page: MkDocsPage | None) -> str:
        made = self._of(page)
        return made.kind if made else "lesson" if page else "missing"

    def trail(self, page: MkDocsPage | None) -> tuple[Link, ...]:
        """The pages above this one."""
        made = self._of(page)
        if made:
            return made.trail
        return ((addresses.LESSONS, self.say("Learn")),) if page and self._lessons else ()

    def above(self, page: MkDocsPage | None) -> tuple[str, ...]:
        """The addresses of the pages above this one."""
        return tuple(uri for uri, _ in self.trail(page))

    def beside(self, page: MkDocsPage | None) -> tuple[Link | None, Link | None]:
        """The lessons before and after this one."""
        places = [uri for uri, _ in self._lessons]
        if page is None or page.file.dest_uri not in places:
            return None, None
        at = places.index(page.file.dest_uri)
        return (
            self._lessons[at - 1] if at else None,
            self._lessons[at + 1] if at + 1 < len(places) else None,
        )
