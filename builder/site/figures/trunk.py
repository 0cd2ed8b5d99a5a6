"""The trunk and the pelvis seen from the side, as smooth outlines that a few numbers move.

Each number is 0 where the trunk is quiet and sound. Outlines stand in the trunk's own coordinates: along the
line from hip to neck, and away from it towards the front. Every point moves in proportion to each number, so
that a figure changes evenly with it, and the browser can draw the same from the same table. By how much is
assumed, so that it is seen at 140 px; nothing is measured on it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields

from .kinematics import Point, beside

Away = tuple[float, float]
"""Along the trunk from the hip, and towards the front."""
Row = tuple[Away, Mapping[str, Away]]
"""Where a point of an outline is when all is quiet, and how far each number moves it."""


@dataclass(frozen=True, slots=True)
class Trunk:
    """How the trunk stands. All but `tilt` count from 0, quiet, to 1, plain to see; below 0 the other way."""

    belly: float = 0.0
    """The wall of the belly: out; below 0 it sinks."""
    flare: float = 0.0
    """The lower ribs in front: up and out; below 0 they are down."""
    hollow: float = 0.0
    """The low back: hollow; below 0 long."""
    lift: float = 0.0
    """The breastbone and the shoulders: up."""
    widen: float = 0.0
    """The lower chest: wider to the front and the back."""
    tilt: float = 0.0
    """The pelvis, in degrees: its upper edge to the back; below 0 to the front."""

    def plus(self, other: Trunk) -> Trunk:
        return Trunk(**{one.name: getattr(self, one.name) + getattr(other, one.name) for one in fields(self)})


QUIET = Trunk()

SHIRT: tuple[Row, ...] = (
    ((91, -6), {"lift": (4, 0)}),
    ((84, -14), {"lift": (4, -1), "widen": (0, -1)}),
    ((68, -19.5), {"widen": (0, -2), "hollow": (0, 1)}),
    ((50, -18), {"widen": (0, -4), "hollow": (0, 2)}),
    ((30, -11.5), {"widen": (0, -1), "hollow": (0, 7)}),
    ((14, -12), {"hollow": (0, 5)}),
    ((-2, -17), {}),
    ((-10, -4), {}),
    ((-6, 12), {}),
    ((8, 16), {"belly": (0, 4)}),
    ((20, 16), {"belly": (0, 12)}),
    ((33, 15.5), {"belly": (0, 12), "flare": (0, 2)}),
    ((44, 17), {"belly": (0, 5), "flare": (3, 10), "widen": (0, 3)}),
    ((57, 19), {"belly": (0, 1), "flare": (4, 7), "widen": (0, 4), "lift": (1, 2)}),
    ((70, 18.5), {"flare": (0, 2), "widen": (0, 2), "lift": (5, 5)}),
    ((82, 12), {"lift": (6, 4)}),
    ((90, 4), {"lift": (4, 1)}),
)
"""From the nape down the back, and up the front."""

RIBS: tuple[Row, ...] = (
    ((45, -14), {"widen": (0, -4), "hollow": (0, 2)}),
    ((39, -4), {"flare": (1, 0)}),
    ((41, 6), {"flare": (5, 3), "widen": (0, 1)}),
    ((48, 14.5), {"flare": (8, 9), "belly": (0, 4), "widen": (0, 3)}),
)
"""The lower edge of the ribs, from the back to the front."""

PELVIS: tuple[Row, ...] = tuple(
    (one, {})
    for one in ((18, -12), (8, -18.5), (-6, -21.5), (-18, -15), (-19, 0), (-11, 13), (3, 16.5), (16, 15.5))
)
"""The pelvis with its shorts, which turns about the hip."""
BAND: tuple[Row, ...] = tuple((one, {}) for one in ((17, -13), (14.5, 0), (16, 16)))
"""The upper edge of the pelvis, which tells how it is turned."""

FLOOR: tuple[Row, ...] = tuple((one, {}) for one in ((-9, -13), (-12.5, 0), (-8, 9)))
"""The pelvic floor, which turns with the pelvis."""
DOME: tuple[Row, ...] = (
    ((47, -12), {"widen": (-6, -3), "hollow": (0, 2)}),
    ((56, 0), {"widen": (-10, 0), "flare": (1, 1)}),
    ((50, 14), {"widen": (-6, 3), "flare": (7, 8)}),
)
"""The breathing muscle under the lungs, which sinks as the chest fills."""


def outline(rows: tuple[Row, ...], now: Trunk, hip: Point, direction: float) -> list[Point]:
    """The points of an outline about a hip whose trunk points in a direction."""
    found = []
    for (along, away), moves in rows:
        for name, (up, out) in moves.items():
            much: float = getattr(now, name)
            along, away = along + much * up, away + much * out
        found.append(beside(hip, direction, along, away))
    return found
