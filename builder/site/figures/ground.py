"""What a body rests on: floor, wall, bench, a mat seen from above, and what lies under its parts."""

from __future__ import annotations

import math

from builder.course import Part, Position

from . import head
from .kinematics import HAND, HEEL, LENGTHS, SOLE, Point, Pose, beside, middle, moved
from .outline import at
from .sheet import THICK, Sheet

_BACK = 20.0
"""From the line of the trunk to the surface of the back."""


def _surface(found: Pose, part: Part) -> list[Point]:
    """Points of a part's surface, from which tells what it rests on."""
    start, end = found.parts[part]
    to = found.directions[part]
    match part:
        case "foot":
            return [beside(start, to, along, SOLE) for along in (-HEEL, LENGTHS["foot"] - HEEL)]
        case "head":
            return [beside(start, to, along, away) for along, away in head.HAIR]
        case "trunk":
            return [beside(start, to, along, -_BACK) for along in (10.0, 60.0)]
        case "forearm":
            tip = end if found.flat_hand is not None else moved(end, to, HAND * 0.75)
            return [(tip[0], tip[1] - THICK["hand"][1])]
        case _:
            one, other = THICK[part]
            return [(x + dx, y + dy) for (x, y), r in ((start, one), (end, other)) for dx, dy in
                    ((0, -r), (r, 0), (-r, 0))]  # fmt: skip


def ground(sheet: Sheet, position: Position, found: Pose) -> None:
    touched = {kind: list(parts) for kind, parts in position.rests_on.items()}
    spread = [point for ends in found.parts.values() for point in ends]
    left, right = min(x for x, _ in spread) - 34, max(x for x, _ in spread) + 30
    low, high = min(y for _, y in spread), max(y for _, y in spread)
    floor = min((y for part in touched.get("floor", ()) for _, y in _surface(found, part)), default=None)
    wall = max((x for part in touched.get("wall", ()) for x, _ in _surface(found, part)), default=None)
    if position.seen == "above":
        edge = wall - 4 if wall is not None else right
        _mat(sheet, left - 6, edge, low - 46, high + 22)
    if wall is not None:
        foot = floor if floor is not None else low - 56
        _solid(sheet, "wall", (wall, foot), (wall, high + 34))
        right = wall
    if "bench" in touched:
        seat = min(y for part in touched["bench"] for _, y in _surface(found, part))
        ends = [point for part in touched["bench"] for point in found.parts[part]]
        first, last = min(x for x, _ in ends) - 26, max(x for x, _ in ends) - 16
        under = floor if floor is not None else seat - 70
        for leg in (first + 8, last - 8):
            sheet.line("bench-leg", (leg, seat - 9), (leg, under))
        sheet.corners("bench", [(first, seat), (last, seat), (last, seat - 9), (first, seat - 9)])
    if floor is not None:
        _solid(sheet, "floor", (left, floor), (right, floor))


def _mat(sheet: Sheet, left: float, right: float, low: float, high: float) -> None:
    sheet.corners("mat", [(left, low), (right, low), (right, high), (left, high)])


def _solid(sheet: Sheet, css: str, start: Point, end: Point) -> None:
    """A surface: its line, and short strokes on the side of what is solid."""
    sheet.line(css, start, end)
    length = math.dist(start, end)
    count = max(1, int(length // 14))
    strokes = []
    for number in range(1, count + 1):
        share = number / (count + 1)
        spot = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
        other = (spot[0] + (7 if css == "wall" else -7), spot[1] - 7)
        sheet.reach(other)
        strokes.append(f"M {at(spot)} L {at(other)}")
    sheet.parts.append(f'<path class="solid" d="{" ".join(strokes)}"/>')


def cushions(sheet: Sheet, position: Position, found: Pose) -> None:
    """Something soft below a part of the body; seen from above, a folded towel that reaches out beside it."""
    for part in position.under:
        ends, to = found.parts[part], found.directions[part]
        centre = moved(ends[0], to, 37) if part == "head" else middle(*ends)
        if position.seen == "above":
            corners = [beside(centre, to, along, away) for along, away in
                       ((-22, -34), (24, -34), (24, 36), (-22, 36))]  # fmt: skip
            sheet.corners("cushion", corners)
            sheet.line("fold", *(beside(centre, to, 15, away) for away in (-34, 36)))
            continue
        low = min(y for _, y in _surface(found, part))
        x = centre[0]
        sheet.corners("cushion", [(x - 26, low), (x + 26, low), (x + 26, low - 9), (x - 26, low - 9)])
