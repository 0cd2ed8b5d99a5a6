"""The list of drills, and for each drill a page and its fault-finding walk."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Any

from builder.answers import addresses
from builder.course import Breath, Drill
from builder.exercises import fault_walk
from builder.words.numbers import quantity

from .. import prose
from ..assets import script
from ..page import Asset, Page
from ..site import Site


def pages(site: Site) -> Iterator[Page | Asset]:
    drills = site.course.drills.values()
    if not drills:
        return
    heading = site.words.say("Drills")
    yield Page(
        addresses.DRILLS,
        heading,
        "drills",
        site.drawn("drills.html.j2", addresses.DRILLS, drills=drills, walked=_walked(site)),
        site.words.say("What is coached, step by step, and what can go wrong."),
    )
    for drill in drills:
        yield from _drill(site, drill, ((addresses.DRILLS, heading),))
    if any(map(_moves, drills)):
        yield Asset(addresses.FIGURE_SCRIPT, partial(script, "figure"))
    if any(drill.breath for drill in drills):
        yield Asset(addresses.PACER_SCRIPT, partial(script, "pacer"))


def _drill(site: Site, drill: Drill, above: tuple[tuple[str, str], ...]) -> Iterator[Page]:
    here, there = addresses.drill(drill.name), addresses.drill_walk(drill.name)
    walk = fault_walk(site.course, drill, site.words)
    cues = " ".join(f"{phase.label} {' '.join(phase.cues)}" for phase in drill.phases)
    yield Page(
        here,
        drill.title,
        "drill",
        site.drawn(
            "drill.html.j2",
            here,
            drill=drill,
            walk=walk,
            pacer=_pacer(site, drill.breath),
            moves=_moves(drill),
        ),
        prose.plain(drill.about),
        prose.plain(f"{drill.about} {cues}"),
        trail=above,
        source=drill.origin.file or None,
    )
    if walk is not None:
        yield Page(
            there,
            walk.title,
            "drill-walk",
            site.drawn("drill_walk.html.j2", there, drill=drill, walk=walk),
            trail=(*above, (here, drill.title)),
            source=drill.origin.file or None,
        )


def _moves(drill: Drill) -> bool:
    """Whether something of it is drawn as it moves."""
    return drill.position is not None and any(
        phase.looks or any(fault.shows for fault in phase.faults) for phase in drill.phases
    )


def _walked(site: Site) -> frozenset[str]:
    """Drills with a fault-finding walk."""
    return frozenset(name for name, drill in site.course.drills.items() if fault_walk(site.course, drill))


def _pacer(site: Site, breath: Breath | None) -> dict[str, Any] | None:
    """What the browser needs to pace a breath: lengths in seconds, and what the pause is for."""
    if breath is None:
        return None
    pause = site.words.say("A pause, up to {seconds}", seconds=quantity(site.words, breath.pause, "s"))
    return {
        "lengths": {
            "out": float(breath.out),
            "pause": float(breath.pause),
            "in": float(breath.into),
            "breaths": breath.breaths,
        },
        "pause": pause,
        "bound": bool(breath.pause_for),
    }
