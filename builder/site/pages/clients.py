"""The list of clients, and for each client a page with story, readings and the walk."""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Case

from .. import prose, uris
from ..page import Page
from ..site import Site


def pages(site: Site) -> Iterator[Page]:
    if not site.course.cases:
        return
    yield Page(
        uris.CLIENTS,
        site.words.say("Clients"),
        "clients",
        site.render("clients.html.j2", uris.CLIENTS),
        site.words.say("Invented clients to decide about."),
    )
    for case in site.course.cases.values():
        yield from client(site, case)


def client(site: Site, case: Case) -> Iterator[Page]:
    """A client's own page with the first walk, and a page for each further one."""
    walks = site.walks(case)
    places = [
        uris.client(case.name, None if number == 0 else walk.exercise) for number, walk in enumerate(walks)
    ]
    for here, walk in zip(places, walks, strict=True):
        others = [(other.title, place) for place, other in zip(places, walks, strict=True) if place != here]
        title = case.client.name if here == places[0] else f"{case.client.name}: {walk.title}"
        yield Page(
            here,
            title,
            "client",
            site.render("client.html.j2", here, case=case, walk=walk, others=others),
            prose.plain(case.client.about),
            _searchable(site, case) if here == places[0] else "",
            ((uris.CLIENTS, site.words.say("Clients")),),
            case.origin.file or None,
            grows=True,
        )


def _searchable(site: Site, case: Case) -> str:
    """What is known before anything is decided: who, story, what was read."""
    read = (site.course.measures[name].label for name in case.readings if name in site.course.measures)
    return " ".join([prose.plain(case.client.about), prose.plain(case.story), *read])
