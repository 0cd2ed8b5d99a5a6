"""Every position: its figure, its angles, its words, the drills that start in it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from builder.answers import addresses

from .. import prose
from ..figures import draw_picture
from ..page import Asset, Page, Part
from ..site import Site


def pages(site: Site) -> Iterator[Page | Asset]:
    positions = site.course.positions.values()
    if not positions:
        return
    for position in positions:
        yield Asset(addresses.position_picture(position.name), partial(draw_picture, position))
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
