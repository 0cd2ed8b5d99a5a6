"""Every kind of page, in the order in which they are made."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from ..page import Made, Page
from ..site import Site
from . import (
    about,
    cautions,
    clients,
    drills,
    educator,
    home,
    lessons,
    measures,
    offline,
    positions,
    quizzes,
    record,
    reference,
    search,
    tables,
    today,
)

Kind = Callable[[Site], Iterator[Made]]

KINDS: tuple[Kind, ...] = (
    home.pages,
    lessons.pages,
    clients.pages,
    quizzes.pages,
    record.pages,
    today.pages,
    drills.pages,
    positions.pages,
    measures.pages,
    tables.pages,
    cautions.pages,
    reference.pages,
    about.pages,
    search.pages,
    offline.pages,
    educator.pages,
)
"""One `pages(site)` for each file of this folder."""


def pages(site: Site) -> Iterator[Made]:
    """The whole site but its lessons. A page that says nothing of itself is told by what the course is."""
    for kind in KINDS:
        for page in kind(site):
            if isinstance(page, Page) and not page.description:
                page = replace(page, description=site.description)
            yield page
