"""Where a body's joints lie in a plane, from the angles of its joints: planar forward kinematics.

Directions are degrees, counted anticlockwise from the right; points are (x, y) with y upwards and the hip at
(0, 0). Joint angles count flexion from upright standing, see `builder.course.Position`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from builder.course import Joint, Part, Position

Point = tuple[float, float]

LENGTHS: Mapping[Part, float] = {
    "trunk": 88,
    "head": 34,
    "upper_arm": 46,
    "forearm": 44,
    "thigh": 76,
    "shank": 76,
    "foot": 34,
}
"""Lengths to draw with; nothing is measured on them. Thigh and shank are as long as each other, and arms as
long as a thigh with its knee, so that hands and knees, or back and soles, come to rest on one line."""


def directions(position: Position) -> dict[Part, float]:
    """Where each part of the body points, away from the trunk; the trunk from pelvis to neck."""

    def bent(joint: Joint) -> float:
        return float(position.joints.get(joint, 0))

    trunk = float(position.trunk)
    thigh = trunk + 180 + bent("hip")
    shank = thigh - bent("knee")
    upper_arm = trunk + 180 + bent("shoulder")
    return {
        "trunk": trunk,
        "head": trunk - bent("neck"),
        "upper_arm": upper_arm,
        "forearm": upper_arm + bent("elbow"),
        "thigh": thigh,
        "shank": shank,
        "foot": shank + 90 + bent("ankle"),
    }


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


def pose(position: Position) -> Pose:
    """The body laid out from the hip."""
    to = directions(position)
    hip: Point = (0.0, 0.0)
    neck = moved(hip, to["trunk"], LENGTHS["trunk"])
    shoulder = moved(hip, to["trunk"], LENGTHS["trunk"] - 8)
    elbow = moved(shoulder, to["upper_arm"], LENGTHS["upper_arm"])
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
    back = to["trunk"] + 180
    bends: dict[Joint, Bend] = {
        "hip": Bend(hip, back, to["thigh"]),
        "knee": Bend(knee, to["thigh"], to["shank"]),
        "ankle": Bend(ankle, to["shank"] + 90, to["foot"]),
        "neck": Bend(neck, to["trunk"], to["head"]),
        "shoulder": Bend(shoulder, back, to["upper_arm"]),
        "elbow": Bend(elbow, to["upper_arm"], to["forearm"]),
    }
    return Pose(parts, to, bends)


def moved(point: Point, direction: float, length: float) -> Point:
    """The point `length` further on in a direction."""
    angle = math.radians(direction)
    return point[0] + length * math.cos(angle), point[1] + length * math.sin(angle)
