"""Every position: its figure, its angles, its words, the drills that start in it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.answers import addresses

from .. import prose
from ..page import Page, Part
from ..site import Site


def pages(site: Site) -> Iterator[Page]:
    positions = site.course.positions.values()
    if not positions:
        return
    drills = {
        position.name: [drill for drill in site.course.drills.values() if drill.position == position.name]
        for position in positions
    }
    yield Page(
        addresses.POSITIONS,
        site.words.say("Positions"),
        "positions",
        site.drawn("positions.html.j2", addresses.POSITIONS, positions=positions, drills=drills),
        site.words.say("The positions in which drills start, with the angles of their joints."),
        parts=tuple(Part(one.name, one.title, prose.plain(one.text)) for one in positions),
    )
