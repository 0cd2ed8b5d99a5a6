"""The list of quizzes, a page for each with its first draw, and data files to draw others from."""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from builder.answers import addresses
from builder.course import Quiz
from builder.questions import FIRST_SEED, draw_data, item_data
from builder.questions.item import Item

from .. import blueprints, prose
from ..data_file import data_file
from ..page import Asset, Made, Page
from ..readings import told_of_any
from ..site import Site

PART = 50
"""Questions in one data file."""


def pages(site: Site) -> Iterator[Made]:
    quizzes = site.course.quizzes.values()
    if not quizzes:
        return
    title, about = site.words.say("Test yourself"), site.words.say("Quizzes that mark themselves.")
    yield Page(addresses.QUIZZES, title, "quizzes", partial(_list, site), about)
    for quiz in quizzes:
        yield Page(
            addresses.quiz(quiz.name),
            prose.plain(quiz.title),
            "quiz",
            partial(_quiz, site, quiz),
            prose.plain(quiz.about),
            prose.plain(quiz.about),
            trail=((addresses.QUIZZES, title),),
            source=quiz.origin.file or None,
        )
        yield from _parts(site, quiz)


def _list(site: Site) -> str:
    sizes = [(quiz, len(site.answers.first_draws[name])) for name, quiz in site.course.quizzes.items()]
    return site.render("quizzes.html.j2", addresses.QUIZZES, quizzes=sizes)


def _quiz(site: Site, quiz: Quiz) -> str:
    here = addresses.quiz(quiz.name)
    pool, items = site.answers.pools[quiz.name], site.answers.first_draws[quiz.name]
    pass_mark = site.answers.pass_mark(quiz)
    seen = partial(addresses.relative, posixpath.dirname(here))
    block: dict[str, Any] = {
        "course": site.course.about.name,
        "quiz": quiz.name,
        "edition": site.facts.quizzes[quiz.name].digest,
        "seed": FIRST_SEED,
        "pass_mark": (pass_mark.numerator, pass_mark.denominator),
        "marking": quiz.marking,
        "serious": quiz.serious,
        "objectives": _labels(site, pool),
        "items": [item_data(item) for item in items],
        "more": len(pool) > len(items),
        "parts": {"address": seen(addresses.quiz_part(quiz.name, "{part}")), "size": PART},
        "record": seen(addresses.RECORD),
        "draw": seen(addresses.DRAW_SCRIPT),
        "task": seen(addresses.TASK_SCRIPT),
        "result": seen(addresses.RESULT_SCRIPT),
    }
    asks = list(blueprints.lines(site.words, site.course, quiz))
    return site.render(
        "quiz.html.j2", here, quiz=quiz, items=items, pool=pool, block=block, pass_mark=pass_mark, asks=asks
    )


def _parts(site: Site, quiz: Quiz) -> Iterator[Asset]:
    """Part 0 holds what a draw needs to know, part `ids` where each question stands; the others hold the
    questions, `PART` in each. Several questions may be about one client, whose readings are held once."""
    pool = site.answers.pools[quiz.name]
    yield _data(quiz, 0, lambda: draw_data(quiz, pool))
    yield _data(quiz, "ids", lambda: [item.id for item in pool])
    for first in range(0, len(pool), PART):
        items = pool[first : first + PART]
        yield _data(quiz, first // PART + 1, partial(_part, site, addresses.quiz(quiz.name), items))


def _part(site: Site, here: str, items: tuple[Item, ...]) -> dict[str, Any]:
    names = sorted({item.case for item in items if item.case})
    clients = (site.answers.client(name) for name in names)
    short = partial(site.macro, "parts.html.j2", "short", here)
    return {
        "questions": [
            {"item": item_data(item), "html": site.once("item.html.j2", "item", here, item.id, item, True)}
            for item in items
        ],
        "readings": {
            client.case.name: short(client.case, told_of_any(site.course, client.case))
            for client in clients
            if client is not None
        },
    }


def _data(quiz: Quiz, part: int | str, value: Callable[[], object]) -> Asset:
    return data_file(addresses.quiz_part(quiz.name, part), f"{quiz.name}.{part}", value)


def _labels(site: Site, pool: tuple[Item, ...]) -> dict[str, str]:
    objectives = site.course.objectives
    return {
        name: objectives[name].label if name in objectives else name
        for name in sorted({item.objective for item in pool})
    }
