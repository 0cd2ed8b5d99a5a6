"""Where a body's joints lie in a plane, from the angles of its joints: planar forward kinematics.

Directions are degrees, counted anticlockwise from the right; points are (x, y) with y upwards and the hip at
(0, 0). Joint angles count flexion from upright standing, see `builder.course.Position`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from builder.course import Joint, Part, Position, Support

Point = tuple[float, float]

STATURE = 300.0
"""How tall a body is that stands; nothing is measured on it."""

SHARES: Mapping[Part, float] = {
    "trunk": 0.288,
    "head": 0.182,
    "upper_arm": 0.186,
    "forearm": 0.146,
    "thigh": 0.245,
    "shank": 0.246,
    "foot": 0.152,
}
"""Lengths of parts as shares of stature; the head with its neck, the trunk from hip to shoulder. After
Drillis and Contini, Body Segment Parameters, 1966, as commonly tabulated (from memory; the table was not
looked up)."""

LENGTHS: Mapping[Part, float] = {part: STATURE * share for part, share in SHARES.items()}
HAND = STATURE * 0.095
SOLE = STATURE * 0.039
"""From the ankle down to the sole."""
HEEL = STATURE * 0.045
"""From the ankle back to the heel."""


def directions(position: Position) -> dict[Part, float]:
    """Where each part of the body points, away from the trunk; the trunk from pelvis to neck.

    An ankle whose angle is not stated follows the floor or the wall that its foot rests on.
    """

    def bent(joint: Joint) -> float:
        return float(position.joints.get(joint, 0))

    trunk = float(position.trunk)
    thigh = trunk + 180 + bent("hip")
    shank = thigh - bent("knee")
    upper_arm = trunk + 180 + bent("shoulder")
    foot = shank + 90 + bent("ankle")
    if "ankle" not in position.joints:
        for support, level in _LEVELS.items():
            if "foot" in position.rests_on.get(support, ()):
                foot = min((level, level + 180), key=lambda one: apart(one, foot))
    return {
        "trunk": trunk,
        "head": trunk - bent("neck"),
        "upper_arm": upper_arm,
        "forearm": upper_arm + bent("elbow"),
        "thigh": thigh,
        "shank": shank,
        "foot": foot,
    }


_LEVELS: Mapping[Support, float] = {"floor": 0.0, "bench": 0.0, "wall": 90.0}


def apart(one: float, other: float) -> float:
    """Degrees between two directions."""
    return abs((one - other + 180) % 360 - 180)


@dataclass(frozen=True, slots=True)
class Bend:
    """The angle at a joint: between where the part would point at 0, and where it points."""

    at: Point
    zero: float
    """Direction at 0."""
    now: float
    """Direction as it is; `now - zero` is the angle, with the sign in which the joint turns on the page."""


@dataclass(frozen=True, slots=True)
class Pose:
    parts: Mapping[Part, tuple[Point, Point]]
    """Start and end of each part, away from the trunk."""
    directions: Mapping[Part, float]
    bends: Mapping[Joint, Bend]
    flat_hand: float | None = None
    """Where the hand points that carries the body, flat on the floor."""


def pose(position: Position) -> Pose:
    """The body laid out from the hip."""
    to = directions(position)
    hip: Point = (0.0, 0.0)
    neck = moved(hip, to["trunk"], LENGTHS["trunk"])
    shoulder = moved(hip, to["trunk"], LENGTHS["trunk"] - 7)
    carries = {"forearm", "shank"} <= set(position.rests_on.get("floor", ()))
    # On hands and knees arms stand apart and thighs do not: seen from the side they are shorter.
    short = (LENGTHS["thigh"] + 8) / (LENGTHS["upper_arm"] + LENGTHS["forearm"] - 7) if carries else 1.0
    elbow = moved(shoulder, to["upper_arm"], LENGTHS["upper_arm"] * short)
    knee = moved(hip, to["thigh"], LENGTHS["thigh"])
    ankle = moved(knee, to["shank"], LENGTHS["shank"])
    starts: dict[Part, Point] = {
        "trunk": hip,
        "head": neck,
        "upper_arm": shoulder,
        "forearm": elbow,
        "thigh": hip,
        "shank": knee,
        "foot": ankle,
    }
    parts = {part: (start, moved(start, to[part], LENGTHS[part])) for part, start in starts.items()}
    parts["upper_arm"] = shoulder, elbow
    parts["forearm"] = elbow, moved(elbow, to["forearm"], LENGTHS["forearm"] * short)
    back = to["trunk"] + 180
    bends: dict[Joint, Bend] = {
        "hip": Bend(hip, back, to["thigh"]),
        "knee": Bend(knee, to["thigh"], to["shank"]),
        "ankle": Bend(ankle, to["shank"] + 90, to["foot"]),
        "neck": Bend(neck, to["trunk"], to["head"]),
        "shoulder": Bend(shoulder, back, to["upper_arm"]),
        "elbow": Bend(elbow, to["upper_arm"], to["forearm"]),
    }
    return Pose(parts, to, bends, to["trunk"] if carries else None)


def moved(point: Point, direction: float, length: float) -> Point:
    """The point `length` further on in a direction."""
    angle = math.radians(direction)
    return point[0] + length * math.cos(angle), point[1] + length * math.sin(angle)


def middle(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def beside(point: Point, direction: float, along: float, away: float) -> Point:
    """A point `along` a direction and `away` from it, towards the front of a body that points there."""
    return moved(moved(point, direction, along), direction - 90, away)
