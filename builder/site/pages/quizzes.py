"""The list of quizzes, a page for each with its first draw, and data files to draw others from."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from markupsafe import Markup

from builder.course import Case, Quiz
from builder.questions import FIRST_SEED, draw, draw_data, item_data, quiz_pool
from builder.questions.item import Item

from .. import prose, uris
from ..data_file import data_file
from ..page import Asset, Page
from ..practice import digest
from ..site import Site

PART = 50
"""Questions in one data file; `quiz-element.js` counts on it."""


def pages(site: Site) -> Iterator[Page | Asset]:
    drawn = {name: draw(quiz, site.bank) for name, quiz in site.course.quizzes.items()}
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


def _quiz(site: Site, quiz: Quiz, items: tuple[Item, ...]) -> Iterator[Page | Asset]:
    here = uris.quiz(quiz.name)
    pool = quiz_pool(quiz, site.bank)
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
    yield from _parts(site, quiz, pool)


def pass_mark_of(site: Site, quiz: Quiz) -> Fraction:
    return site.course.about.pass_mark if quiz.pass_mark is None else quiz.pass_mark


def edition(site: Site, quiz: Quiz) -> str:
    """Twelve hexadecimal digits that change with the quiz and with any question that it can ask."""
    data = draw_data(quiz, site.bank)
    asked = [item.digest for item in quiz_pool(quiz, site.bank)]
    return digest([data["rows"], data["pool"], quiz.marking, str(pass_mark_of(site, quiz)), asked])


def _parts(site: Site, quiz: Quiz, pool: tuple[Item, ...]) -> Iterator[Asset]:
    """Part 0 holds what a draw needs to know; the others hold the questions, `PART` in each."""
    here = uris.quiz(quiz.name)
    yield _data(quiz, 0, draw_data(quiz, site.bank))
    for first in range(0, len(pool), PART):
        items = pool[first : first + PART]
        cases = sorted({item.case or "" for item in items} & site.course.cases.keys())
        part = {
            "questions": [{"item": item_data(item), "html": _question(site, here, item)} for item in items],
            "readings": {case: _readings(site, here, site.course.cases[case]) for case in cases},
        }
        yield _data(quiz, first // PART + 1, part)


def _question(site: Site, here: str, item: Item) -> str:
    """A question as every quiz shows it, without its client's readings."""

    def make() -> str:
        return site.render("question.html.j2", here, item=item)

    case = site.course.cases.get(item.case or "")
    name = f"question {item.id}"
    return site.once(
        here, (name,), lambda: Markup(site.kept.body(name, case, item.digest, make) if case else make())
    )


def _readings(site: Site, here: str, case: Case) -> str:
    """Several questions of a data file are about one client, whose readings it holds once."""
    return site.render("readings.html.j2", here, case=case)


def _data(quiz: Quiz, number: int, value: object) -> Asset:
    return data_file(uris.quiz_part(quiz.name, number), f"{quiz.name}.{number}", value)


def _labels(site: Site, pool: tuple[Item, ...]) -> dict[str, str]:
    objectives = site.course.objectives
    return {
        name: objectives[name].label if name in objectives else name
        for name in sorted({item.objective for item in pool})
    }
