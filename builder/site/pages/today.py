"""What the home page and the record need to say what is due: their scripts, and all that can be asked."""

from __future__ import annotations

import posixpath
from collections import defaultdict
from collections.abc import Iterator
from functools import partial
from typing import Any

from builder.answers import addresses
from builder.course import Table
from builder.exercises import Walk, fault_walk

from ..assets import script
from ..data_file import data_file
from ..page import Asset, Made
from ..site import Site

Row = tuple[str, str, str, list[int] | str]
"""As `web/today.js` reads it: id, client or empty, sign, and the numbers of quizzes or the page's address."""


def pages(site: Site) -> Iterator[Made]:
    if block(site):
        yield Asset(addresses.TODAY_SCRIPT, partial(script, "today"))
        yield Asset(addresses.PLAN_SCRIPT, partial(script, "plan"))
        yield data_file(addresses.PLAN_INDEX, "plan", partial(_index, site))


def block(site: Site) -> dict[str, Any] | None:
    """What the home page hands to its script; None where nothing can be tried."""
    if not (site.course.cases or site.course.quizzes):
        return None
    return {
        "course": site.course.about.name,
        "plan": addresses.PLAN_INDEX,
        "record": addresses.RECORD,
        "index": addresses.RECORD_INDEX,
        "ask": addresses.of_tries(posixpath.dirname(addresses.HOME))["ask"],
    }


def _index(site: Site) -> dict[str, Any]:
    """Every unit that is learnt, with the questions and steps that ask for it, in the order of the course."""
    units: dict[str, tuple[str, str, list[Row]]] = {}
    for unit, objective, row in (*_questions(site), *_steps(site)):
        units.setdefault(unit, (unit, objective, []))[2].append(row)
    return {"quizzes": list(site.course.quizzes), "units": list(units.values())}


def _questions(site: Site) -> Iterator[tuple[str, str, Row]]:
    """Those that some quiz can ask."""
    asked: dict[str, list[int]] = defaultdict(list)
    for number, quiz in enumerate(site.course.quizzes):
        for item in site.answers.pools[quiz]:
            asked[item.id].append(number)
    for item in site.answers.bank:
        if item.id in asked:
            table = site.course.tables.get(item.table or "")
            sign = _sign(table, item.right, item.stops) if item.case else ""
            yield item.learnt, item.objective, (item.id, item.case or "", sign, asked[item.id])


def _steps(site: Site) -> Iterator[tuple[str, str, Row]]:
    for case, client in site.answers.clients.items():
        for exercise in client.exercises:
            yield from _walked(site, client.walks[exercise], addresses.walk(site.answers, case, exercise))
    for drill in site.course.drills.values():
        walk = fault_walk(site.course, drill, site.words)
        if walk is not None:
            yield from _walked(site, walk, addresses.drill_walk(drill.name))


def _walked(site: Site, walk: Walk, page: str) -> Iterator[tuple[str, str, Row]]:
    name = "/".join(part for part in (walk.exercise, walk.case) if part)
    for step in walk.steps.values():
        if step.options:
            best = next((option.id for option in step.options if option.best), "")
            sign = _sign(site.course.tables.get(step.table or ""), best, step.stops)
            row: Row = (f"{name}/{step.id}", walk.case, sign, page)
            yield step.learnt, step.objective or "", row


def _sign(table: Table | None, right: str, stops: tuple[str, ...]) -> str:
    """Whether the right outcome of a table sends the client on; empty where none is decided."""
    if table is None or right not in table.outcomes:
        return ""
    return "stop" if stops else "go"
