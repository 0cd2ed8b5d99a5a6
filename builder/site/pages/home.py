"""The home page: what this is, for whom, and what to do first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.answers import addresses

from .. import prose
from ..bodies import Opening
from ..page import Page
from ..site import Site
from . import offline, today


@dataclass(frozen=True, slots=True)
class Door:
    verb: str
    what: str
    uri: str


def pages(site: Site) -> Iterator[Page]:
    yield home(site)


def home(site: Site, opening: Opening | None = None) -> Page:
    """The home page; `opening` is the educator's own `index.md`, already HTML."""
    about = site.course.about
    body = site.drawn(
        "home.html.j2",
        addresses.HOME,
        first=next(iter(site.course.cases.values()), None),
        doors=tuple(doors(site)),
        opening=opening,
        today=today.block(site),
        keep=offline.block(site),
    )
    summary = prose.plain(about.summary)
    opened = any(addresses.lesson(lesson.file) == addresses.HOME for lesson in site.course.lessons)
    return Page(addresses.HOME, about.title, "home opened" if opened else "home", body, summary, summary)


def doors(site: Site) -> Iterator[Door]:
    """Learn, practise, test: those that the course has something behind."""
    course, words = site.course, site.words
    if site.lessons:
        what = words.count("{number} lesson to read", "{number} lessons to read", len(site.lessons))
        yield Door(words.say("Learn"), what, addresses.LESSONS)
    if course.cases:
        what = words.count(
            "{number} client to decide about", "{number} clients to decide about", len(course.cases)
        )
        yield Door(words.say("Practise"), what, addresses.CLIENTS)
    if course.quizzes:
        what = words.count("{number} quiz", "{number} quizzes", len(course.quizzes))
        yield Door(words.say("Test yourself"), what, addresses.QUIZZES)
