"""The list of quizzes, a page for each with its first draw, and data files to draw others from."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from builder.course import Quiz
from builder.questions import FIRST_SEED, draw_data, draw_quiz, item_data
from builder.questions.item import Item

from .. import prose, uris
from ..data_file import data_file
from ..page import Asset, Made, Page
from ..practice import digest
from ..site import Site

PART = 50
"""Questions in one data file."""


def pages(site: Site) -> Iterator[Made]:
    drawn = {name: draw_quiz(quiz, site.bank) for name, quiz in site.course.quizzes.items()}
    if not drawn:
        return
    sizes = [(site.course.quizzes[name], len(items)) for name, items in drawn.items()]
    yield Page(
        uris.QUIZZES,
        site.words.say("Test yourself"),
        "quizzes",
        site.render("quizzes.html.j2", uris.QUIZZES, quizzes=sizes),
        site.words.say("Quizzes that mark themselves."),
    )
    for name, items in drawn.items():
        yield from _quiz(site, site.course.quizzes[name], items)
    for quiz in site.course.quizzes.values():
        yield from _parts(site, quiz)


def _quiz(site: Site, quiz: Quiz, items: tuple[Item, ...]) -> Iterator[Made]:
    here = uris.quiz(quiz.name)
    pool = site.pool(quiz)
    pass_mark = pass_mark_of(site, quiz)
    block: dict[str, Any] = {
        "course": site.course.about.name,
        "quiz": quiz.name,
        "edition": edition(site, quiz),
        "seed": FIRST_SEED,
        "pass_mark": (pass_mark.numerator, pass_mark.denominator),
        "marking": quiz.marking,
        "objectives": _labels(site, pool),
        "items": [item_data(item) for item in items],
        "more": len(pool) > len(items),
        "parts": {"address": uris.relative(here, uris.quiz_part(quiz.name, "{part}")), "size": PART},
        "record": uris.relative(here, uris.RECORD),
    }
    title = prose.plain(quiz.title)
    yield Page(
        here,
        title,
        "quiz",
        site.render("quiz.html.j2", here, quiz=quiz, items=items, block=block, pass_mark=pass_mark),
        prose.plain(quiz.about),
        prose.plain(quiz.about),
        trail=((uris.QUIZZES, site.words.say("Test yourself")),),
        source=quiz.origin.file or None,
    )
    yield _data(quiz, 0, draw_data(quiz, site.bank))
    yield _data(quiz, "ids", [item.id for item in pool])


def pass_mark_of(site: Site, quiz: Quiz) -> Fraction:
    return site.course.about.pass_mark if quiz.pass_mark is None else quiz.pass_mark


def edition(site: Site, quiz: Quiz) -> str:
    """Twelve hexadecimal digits that change with the quiz and with any question that it can ask."""
    data = draw_data(quiz, site.bank)
    asked = [item.digest for item in site.pool(quiz)]
    return digest([data["rows"], data["pool"], quiz.marking, str(pass_mark_of(site, quiz)), asked])


def _parts(site: Site, quiz: Quiz) -> Iterator[Asset]:
    """Part 0 holds what a draw needs to know, part `ids` where each question stands; the others hold the
    questions, `PART` in each. Several questions may be about one client, whose readings are held once."""
    here = uris.quiz(quiz.name)
    pool = site.pool(quiz)
    for first in range(0, len(pool), PART):
        site.start(here)
        yield _data(quiz, first // PART + 1, _part(site, here, pool[first : first + PART]))


def _part(site: Site, here: str, items: tuple[Item, ...]) -> dict[str, Any]:
    cases = sorted({item.case for item in items if item.case is not None})
    return {
        "questions": [{"item": item_data(item), "html": _question(site, here, item)} for item in items],
        "readings": {
            case: site.macro("parts.html.j2", "readings", here, site.course.cases[case]) for case in cases
        },
    }


def _question(site: Site, here: str, item: Item) -> str:
    """A question as every quiz shows it, without its client's readings."""
    apart = True
    return site.once(("question", item.id), site.macro, "item.html.j2", "item", here, item, apart)


def _data(quiz: Quiz, part: int | str, value: object) -> Asset:
    return data_file(uris.quiz_part(quiz.name, part), f"{quiz.name}.{part}", value)


def _labels(site: Site, pool: tuple[Item, ...]) -> dict[str, str]:
    objectives = site.course.objectives
    return {
        name: objectives[name].label if name in objectives else name
        for name in sorted({item.objective for item in pool})
    }
