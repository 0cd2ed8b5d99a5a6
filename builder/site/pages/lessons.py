"""The list of lessons. The lessons themselves are MkDocs' own pages."""

from __future__ import annotations

from collections.abc import Iterator

from builder.answers import addresses

from ..page import Page
from ..site import Site
from .clients import served


def pages(site: Site) -> Iterator[Page]:
    if site.lessons:
        body = site.drawn("lessons.html.j2", addresses.LESSONS, lessons=site.lessons, served=served(site))
        labels = tuple(objective.label for objective in site.course.objectives.values())
        yield Page(addresses.LESSONS, site.words.say("Learn"), "lessons", body, labels=labels)
