"""What the course is for, where it ends, who has reviewed it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.answers import addresses

from .. import prose
from ..page import Page
from ..site import Site


def pages(site: Site) -> Iterator[Page]:
    body = site.drawn("about.html.j2", addresses.ABOUT)
    yield Page(
        addresses.ABOUT,
        site.words.say("About this course"),
        "about",
        body,
        searchable=prose.plain(site.course.about.scope),
        source="course.yml",
    )
