"""What the course is for, where it ends, who has reviewed it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from builder.answers import addresses
from builder.checks.contact_time import rounded, units
from builder.checks.reviews import Part, reviewed
from builder.course import Caution, Drill, Question, Table
from builder.words.sentences import table_label

from .. import prose
from ..page import Page
from ..site import Site


def pages(site: Site) -> Iterator[Page]:
    reviews = tuple(_reviews(site))
    body = partial(_body, site, reviews)
    yield Page(
        addresses.ABOUT,
        site.words.say("About this course"),
        "about",
        body,
        searchable=prose.plain(site.course.about.scope),
        source="course.yml",
    )


def _body(site: Site, reviews: tuple[tuple[str, str | None, Part], ...]) -> str:
    found = site.contact_time
    rounding = found.settings.rounding if found else "none"
    return site.render(
        "about.html.j2",
        addresses.ABOUT,
        reviews=reviews,
        time=found,
        hours=partial(rounded, rounding=rounding),
        units=units,
    )


def _reviews(site: Site) -> Iterator[tuple[str, str | None, Part]]:
    """Title, address and part of whatever should be reviewed or has been."""
    for one in reviewed(site.course):
        if one.is_needed or one.review is not None:
            yield _titled(one.part)


def _titled(part: Part) -> tuple[str, str | None, Part]:
    match part:
        case Caution(name=name, title=title):
            return title, addresses.caution(name), part
        case Drill(name=name, title=title):
            return title, addresses.drill(name), part
        case Table(name=name):
            return table_label(part), addresses.table(name), part
        case Question(stem=stem):
            return prose.plain(stem), None, part
        case _:
            return part.title, None, part
