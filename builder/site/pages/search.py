"""The search page. Its form is made by the browser; without script it leads to the lists instead."""

from __future__ import annotations

from collections.abc import Iterator

from .. import uris
from ..page import Page
from ..site import Site


def pages(site: Site) -> Iterator[Page]:
    yield Page(
        uris.SEARCH,
        site.words.say("Search"),
        "search",
        site.render("search.html.j2", uris.SEARCH, lists=lists(site)),
    )


def lists(site: Site) -> list[tuple[str, str]]:
    """Address and label of every list that the course has."""
    course, say = site.course, site.words.say
    there = [
        (bool(site.lessons), uris.LESSONS, say("Lessons")),
        (bool(course.cases), uris.CLIENTS, say("Clients")),
        (bool(course.measures), uris.MEASURES, say("Measures")),
        (bool(course.tables), uris.TABLES, say("Decision tables")),
        (bool(course.drills), uris.DRILLS, say("Drills")),
        (bool(course.positions), uris.POSITIONS, say("Positions")),
        (bool(course.cautions), uris.CAUTIONS, say("Cautions")),
        (bool(course.quizzes), uris.QUIZZES, say("Quizzes")),
        (bool(course.terms), uris.GLOSSARY, say("Glossary")),
    ]
    return [(uri, label) for has, uri, label in there if has]
