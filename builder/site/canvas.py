"""What a page is drawn on: links that start at it, prose, and what all pages of its folder share."""

from __future__ import annotations

from collections.abc import Callable, Hashable

from markupsafe import Markup

from builder.answers import addresses
from builder.course import Course

from . import prose

Shared = dict[Hashable, Markup]
"""What was made already, by what it shows."""


class Canvas:
    """For the pages of one folder: links from all of them start at the same place."""

    def __init__(self, course: Course, folder: str, below: Shared) -> None:
        """`folder` is an address such as `clients`, empty for the root; `below` is shared by all folders of
        the same depth."""
        self._folder = folder
        self._lessons = frozenset(lesson.file for lesson in course.lessons)
        self._made: Shared = {}
        self._made_below = below

    def href(self, to: str) -> str:
        """A link to an address of the site, which may carry a `#part`."""
        return addresses.relative(self._folder, to)

    def prose(self, text: str) -> Markup:
        """An educator's prose as blocks."""
        return self.once(("prose", text), prose.blocks, text, self._resolve)

    def line(self, text: str) -> Markup:
        """An educator's prose as one line."""
        return self.once(("line", text), prose.line, text, self._resolve)

    def once(self, key: Hashable, make: Callable[..., str], *given: object) -> Markup:
        """What `make` makes of what is given, made once for all pages of the folder."""
        return _once(self._made, key, make, *given)

    def once_below(self, key: Hashable, make: Callable[..., str], *given: object) -> Markup:
        """As `once`, for what leads to pages at the root alone: made once for all folders of one depth."""
        return _once(self._made_below, key, make, *given)

    def _resolve(self, address: str) -> str | None:
        """A relative link as an educator writes it, from the course folder: `lessons/x.md`, with `#part`."""
        file, mark, part = address.partition("#")
        if file in self._lessons:
            return self.href(addresses.lesson(file) + mark + part)
        return None


def _once(made: Shared, key: Hashable, make: Callable[..., str], *given: object) -> Markup:
    if key not in made:
        made[key] = Markup(make(*given))
    return made[key]
