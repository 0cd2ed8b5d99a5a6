"""The search page. Its form is made by the browser; without script it leads to the lists instead."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from builder.answers import addresses

from ..assets import script
from ..page import Asset, Made, Page
from ..site import Site


def pages(site: Site) -> Iterator[Made]:
    yield Asset(addresses.SEARCH_SCRIPT, partial(script, "search"))
    yield Page(
        addresses.SEARCH,
        site.words.say("Search"),
        "search",
        site.drawn("search.html.j2", addresses.SEARCH, lists=lists(site)),
    )


def lists(site: Site) -> list[tuple[str, str]]:
    """Address and label of every list that the course has."""
    course, say = site.course, site.words.say
    there = [
        (bool(site.lessons), addresses.LESSONS, say("Lessons")),
        (bool(course.cases), addresses.CLIENTS, say("Clients")),
        (bool(course.measures), addresses.MEASURES, say("Measures")),
        (bool(course.tables), addresses.TABLES, say("Decision tables")),
        (bool(course.drills), addresses.DRILLS, say("Drills")),
        (bool(course.positions), addresses.POSITIONS, say("Positions")),
        (bool(course.cautions), addresses.CAUTIONS, say("Cautions")),
        (bool(course.quizzes), addresses.QUIZZES, say("Quizzes")),
        (bool(course.terms), addresses.GLOSSARY, say("Glossary")),
    ]
    return [(uri, label) for has, uri, label in there if has]
