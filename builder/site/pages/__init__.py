"""Every kind of page, in the order in which they are made."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from ..page import Asset, Page
from ..site import Site
from . import (
    about,
    cautions,
    clients,
    drills,
    home,
    lessons,
    measures,
    positions,
    quizzes,
    record,
    reference,
    search,
    tables,
)

Kind = Callable[[Site], Iterator[Page | Asset]]

KINDS: tuple[Kind, ...] = (
    home.pages,
    lessons.pages,
    clients.pages,
    quizzes.pages,
    record.pages,
    drills.pages,
    positions.pages,
    measures.pages,
    tables.pages,
    cautions.pages,
    reference.pages,
    about.pages,
    search.pages,
)
"""One `pages(site)` for each file of this folder."""


def pages(site: Site) -> Iterator[Page | Asset]:
    """The whole site but its lessons. A page that says nothing of itself is told by what the course is."""
    for kind in KINDS:
        for page in kind(site):
            told = isinstance(page, Asset) or page.description
            yield page if told else replace(page, description=site.description)
