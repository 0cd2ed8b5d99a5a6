"""The list of clients, and for each client a page with story, readings and the walk."""

from __future__ import annotations

import posixpath
from collections.abc import Iterator, Mapping
from functools import partial
from typing import Any

from builder.answers import addresses
from builder.course import Case
from builder.words.sentences import found

from .. import prose
from ..assets import script
from ..page import Asset, Made, Page
from ..site import Site


def pages(site: Site) -> Iterator[Made]:
    if site.course.cases:
        yield _list(site)
        yield Asset(addresses.FILTER_SCRIPT, partial(script, "clients"))
    for case in site.course.cases.values():
        yield from client(site, case)


def _list(site: Site) -> Page:
    return Page(
        addresses.CLIENTS,
        site.words.say("Clients"),
        "clients",
        lambda: site.render("clients.html.j2", addresses.CLIENTS, block=_choices(site)),
        site.words.say("Invented clients to decide about."),
    )


def _choices(site: Site) -> dict[str, Any]:
    """By what the list can be narrowed down, and for each client in its order what of that fits."""
    course, cases = site.course, site.course.cases.values()
    aims = {case.name: _aims(site, case) for case in cases}
    objectives = [one for one in course.objectives if one in served(site)]
    measures = [
        name
        for name, one in course.measures.items()
        if not one.of_client and any(name in case.readings for case in cases)
    ]
    return {
        "course": course.about.name,
        "index": addresses.relative(posixpath.dirname(addresses.CLIENTS), addresses.RECORD_INDEX),
        "objective": [(name, course.objectives[name].label) for name in objectives],
        "measure": [(name, course.measures[name].label) for name in measures],
        "rows": [
            (
                [at for at, name in enumerate(objectives) if name in aims[case.name]],
                [at for at, name in enumerate(measures) if name in case.readings],
            )
            for case in cases
        ],
    }


def served(site: Site) -> frozenset[str]:
    """The objectives that some client serves."""
    return frozenset().union(*(_aims(site, case) for case in site.course.cases.values()))


def _aims(site: Site, case: Case) -> frozenset[str]:
    """The objectives that a client serves: those named for the client, else those of the exercises."""
    exercises = (site.course.exercises.get(name) for name in site.answers.exercises_of(case.name))
    of_exercises = (name for exercise in exercises if exercise for name in exercise.objectives)
    return frozenset(case.objectives or of_exercises)


def client(site: Site, case: Case) -> Iterator[Page]:
    """A client's own page with the first walk, and a page for each further one."""
    exercises = site.answers.exercises_of(case.name)
    places = {name: addresses.walk(site.answers, case.name, name) for name in exercises}
    for at, (name, here) in enumerate(places.items()):
        yield Page(
            here,
            f"{case.client.name}: {site.answers.exercise(name).title}" if at else case.client.name,
            "client",
            partial(_body, site, case, places, name),
            prose.plain(case.client.about),
            "" if at else f"{prose.plain(case.client.about)} {prose.plain(case.story)}",
            () if at else tuple(_findings(site, case)),
            trail=((addresses.CLIENTS, site.words.say("Clients")),),
            source=case.origin.file or None,
            grows=True,
        )


def _body(site: Site, case: Case, places: Mapping[str, str], exercise: str) -> str:
    """A page with one exercise, which leads to the others."""
    others = [(site.answers.exercise(name).title, uri) for name, uri in places.items() if name != exercise]
    walk = site.answers.of(case).walks[exercise]
    return site.macro("client.html.j2", "page", places[exercise], case, walk, others)


def _findings(site: Site, case: Case) -> Iterator[str]:
    """What was read, in names; of a yes-or-no measure only a yes. Known before anything is decided."""
    for measure in site.course.measures.values():
        if measure.of_client or measure.name not in case.readings:
            continue
        value = site.answers.of(case).found.values.get(measure.name)
        if value is not False:
            yield measure.label
        if isinstance(value, str):
            yield found(site.words, site.course, measure.name, value)
