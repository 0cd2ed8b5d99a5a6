"""Outlines of soft shapes: limbs as tapered capsules, trunks and heads as closed smooth curves.

Points are in body coordinates, y upwards; what is written is for SVG, y downwards.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from .kinematics import Point
from .svg import place


def at(point: Point) -> str:
    return f"{place(point[0])} {place(-point[1])}"


def capsule(start: Point, end: Point, thick: float, thin: float) -> str:
    """Two circles of these radii and their outer tangents. The line of the limb runs through the middles of
    the two ends of each arc."""
    length = math.dist(start, end)
    turn = math.atan2(end[1] - start[1], end[0] - start[0])
    # The tangents touch both circles where the radii stand at this angle to the line.
    lean = math.acos(max(-1.0, min(1.0, (thick - thin) / length))) if length else math.pi / 2

    def on(centre: Point, radius: float, angle: float) -> Point:
        return centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)

    a, b = on(start, thick, turn + lean), on(end, thin, turn + lean)
    c, d = on(end, thin, turn - lean), on(start, thick, turn - lean)
    big, small = (1, 0) if thick >= thin else (0, 1)
    return (
        f"M {at(d)} A {place(thick)} {place(thick)} 0 {big} 1 {at(a)} L {at(b)} "
        f"A {place(thin)} {place(thin)} 0 {small} 1 {at(c)} Z"
    )


def smooth(points: Sequence[Point], closed: bool = True) -> str:
    """A curve through all the points: cubic Bézier pieces with tangents from the neighbours (Catmull and Rom,
    A class of local interpolating splines, 1974)."""
    count = len(points)

    def of(number: int) -> Point:
        return points[number % count] if closed else points[max(0, min(count - 1, number))]

    pieces = [f"M {at(points[0])}"]
    for number in range(count if closed else count - 1):
        before, here, there, after = of(number - 1), of(number), of(number + 1), of(number + 2)
        one = here[0] + (there[0] - before[0]) / 6, here[1] + (there[1] - before[1]) / 6
        two = there[0] - (after[0] - here[0]) / 6, there[1] - (after[1] - here[1]) / 6
        pieces.append(f"C {at(one)} {at(two)} {at(there)}")
    return " ".join(pieces) + (" Z" if closed else "")


def polygon(points: Sequence[Point]) -> str:
    return f"M {' L '.join(at(one) for one in points)} Z"
