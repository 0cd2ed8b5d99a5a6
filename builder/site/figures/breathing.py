"""How a trunk moves while it breathes: from the terms of what is seen, and how full the lungs are.

In seconds, and as smooth as breath is. By how much each term moves the trunk is assumed (see `trunk.py`), and
so are the lengths of a breath that is not stated, of a fast one and of one that stops.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from builder.course import Breath, Look

from .trunk import QUIET, Trunk


@dataclass(frozen=True, slots=True)
class Cycle:
    """One breath, in seconds: out, a rest, in."""

    out: float
    rest: float
    into: float

    @property
    def length(self) -> float:
        return self.out + self.rest + self.into


QUIET_CYCLE = Cycle(4.0, 0.5, 2.5)
"""Where the drill states none. Assumed."""
FAST = Cycle(1.0, 0.2, 0.9)
"""Assumed."""


def cycle_of(look: Look, breath: Breath | None) -> Cycle:
    if "fast" in look["breath"]:
        return FAST
    if breath is None:
        return QUIET_CYCLE
    return Cycle(float(breath.out), 0.5, float(breath.into))


def fullness(cycle: Cycle, seconds: float, stops: bool = False) -> float:
    """How full the lungs are at a moment of a breath that begins with the breath out: from 1, full, to 0. A
    breath that stops stays half way out, and goes on for the last third of the time."""
    at = seconds % cycle.length
    if at <= cycle.out:
        share = at / cycle.out
        if stops:
            share = min(share / 0.6, 0.5) if share < 0.7 else 0.5 + (share - 0.7) / 0.6
        return (1 + math.cos(math.pi * share)) / 2
    if at <= cycle.out + cycle.rest:
        return 0.0
    share = (at - cycle.out - cycle.rest) / cycle.into
    return (1 - math.cos(math.pi * share)) / 2


def trunk_at(look: Look, full: float) -> Trunk:
    """The trunk that looks so, with the lungs so full. Every part of it moves evenly with them."""
    found = QUIET
    for term, values in look.items():
        for value in values:
            found = found.plus(_PARTS.get((term, value), _still)(full))
    return found


def _still(full: float) -> Trunk:
    return QUIET


TILTS = (0.0, 13.0, -15.0)
"""The pelvis level, back and forward, in degrees. Assumed."""

_PARTS = {
    ("pelvis", "back"): lambda full: Trunk(tilt=TILTS[1], hollow=-0.35),
    ("pelvis", "forward"): lambda full: Trunk(tilt=TILTS[2], hollow=0.7),
    ("ribs", "down"): lambda full: Trunk(flare=-0.3 * (1 - full)),
    ("ribs", "flared"): lambda full: Trunk(flare=1.0),
    ("belly", "soft"): lambda full: Trunk(belly=0.22 * full),
    ("belly", "sinks"): lambda full: Trunk(belly=-0.55 * (1 - full)),
    ("belly", "out"): lambda full: Trunk(belly=0.95 + 0.35 * full),
    ("belly", "hard"): lambda full: Trunk(belly=0.25),
    ("chest", "widens"): lambda full: Trunk(widen=1.0 * full),
    ("chest", "lifts"): lambda full: Trunk(lift=1.1 * full),
    ("neck", "works"): lambda full: Trunk(lift=0.45 * full),
    ("back", "hollow"): lambda full: Trunk(hollow=0.9),
}


@dataclass(frozen=True, slots=True)
class Moment:
    """A moment of a breath: how full the lungs are, and whether air goes out."""

    full: float
    blows: bool = False


def moments(look: Look) -> tuple[Moment, Moment, Moment]:
    """Three that tell a breath: full, on the way out, and nearly empty."""
    stops = "stops" in look["breath"]
    return Moment(1.0), Moment(0.5, blows=not stops), Moment(0.0)
