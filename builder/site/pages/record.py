"""My record: what a learner has tried on this device. The page is filled by the browser alone."""

from __future__ import annotations

import posixpath
from collections import Counter
from collections.abc import Iterator, Mapping
from functools import partial
from typing import Any

from builder.answers import addresses
from builder.exercises import PATHWAY
from builder.questions import item_data

from .. import prose
from ..assets import script
from ..data_file import data_file
from ..excerpts import short
from ..page import Asset, Made, Page
from ..site import Site


def pages(site: Site) -> Iterator[Made]:
    if not (site.course.cases or site.course.quizzes):
        return
    title = site.words.say("My record")
    yield Page(
        addresses.RECORD,
        title,
        "record",
        partial(_body, site),
        site.words.say("What you have tried, kept on your device alone."),
    )
    yield Asset(addresses.RECORD_SCRIPT, partial(script, "record"))
    yield Asset(addresses.HANDOVER_SCRIPT, partial(script, "handover"))
    yield Asset(addresses.CHANCES_SCRIPT, partial(script, "chances"))
    yield data_file(addresses.RECORD_INDEX, "record", partial(_index, site))
    yield data_file(addresses.RECORD_ITEMS, "record-items", partial(_items, site))


def _body(site: Site) -> str:
    return site.render("record.html.j2", addresses.RECORD, block=_block(site))


def _block(site: Site) -> dict[str, Any]:
    """What the browser needs to know of the course, free of clients."""
    about = site.course.about
    return {
        "course": about.name,
        "version": about.version,
        "build": site.build,
        "index": addresses.RECORD_INDEX,
        "items": addresses.RECORD_ITEMS,
        "handover": addresses.HANDOVER_SCRIPT,
        "plan": {"script": addresses.PLAN_SCRIPT, "index": addresses.PLAN_INDEX},
        "chances": addresses.CHANCES_SCRIPT,
        "objectives": [(name, objective.label) for name, objective in site.course.objectives.items()],
        "quizzes": [_quiz(site, name) for name in site.course.quizzes],
        "addresses": addresses.of_tries(posixpath.dirname(addresses.RECORD)),
    }


def _quiz(site: Site, name: str) -> dict[str, Any]:
    quiz, facts = site.course.quizzes[name], site.facts.quizzes[name]
    pool, items = site.answers.pools[name], site.answers.first_draws[name]
    return {
        "quiz": name,
        "title": prose.plain(quiz.title),
        "pass_mark": (facts.pass_mark.numerator, facts.pass_mark.denominator),
        "asks": facts.asks,
        "serious": facts.serious,
        "digest": facts.digest,
        # How many questions of each objective a draw asks is known only where each row names one.
        "drawn": len(pool) > len(items) and all(row.objective for row in quiz.blueprint),
        "blueprint": dict(Counter(item.objective for item in items)),
        "unsafe": sorted(
            {item.objective for item in pool if any(option.harm == "serious" for option in item.options)}
        ),
    }


def _index(site: Site) -> dict[str, Any]:
    """What a learner may have tried, to name it, to lead back to it and to see whether it has changed."""
    course = site.course
    written: dict[str, tuple[str, str, str]] = {}
    families: dict[str, dict[str, Any]] = {}
    for item in site.answers.bank:
        if item.family is None or item.case is None:
            written[item.id] = (short(item.stem), item.key_digest, item.digest)
            continue
        if item.family not in families:
            families[item.family] = {"text": short(item.asks), "digests": {}}
        families[item.family]["digests"][item.case] = (item.key_digest, item.digest)
    titles = {name: prose.plain(exercise.title) for name, exercise in course.exercises.items()}
    titles[PATHWAY] = site.words.say("Every decision")
    facts = site.facts
    tables = {table for steps in facts.decided.values() for table in steps.values()}
    return {
        "decided": facts.decided,
        "asked": facts.asked,
        "tables": {table: course.tables[table].question for table in sorted(tables)},
        "keys": {table: keys for table, keys in facts.keys.items() if table in tables},
        "outcomes": {
            client: {table: outcome for table, outcome in facts.outcomes(client).items() if table in tables}
            for client in course.cases
        },
        "drills": {name: prose.plain(drill.title) for name, drill in course.drills.items()},
        "clients": {name: case.client.name for name, case in course.cases.items()},
        "written": written,
        "families": families,
        "exercises": [(name, titles[name], cases) for name, cases in _walked(site).items()],
    }


def _items(site: Site) -> dict[str, Any]:
    """What it takes to mark an answer again, by question."""
    data = (item_data(item) for item in site.answers.bank)
    return {
        one["id"]: {"digest": one["digest"], "kind": one["kind"], "key": one["key"], "harm": one["harm"]}
        for one in data
    }


def _walked(site: Site) -> Mapping[str, tuple[str, ...]]:
    """Exercise to its clients, in the order in which a client meets them."""
    names = [*site.course.exercises, PATHWAY]
    return {name: tuple(site.answers.following[name]) for name in names if name in site.answers.following}
