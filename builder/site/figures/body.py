"""The body: a line figure of a position, with the angles of its joints as arcs and degrees."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

from markupsafe import Markup

from builder.course import Joint, Part, Position
from builder.words import Words
from builder.words.numbers import quantity

from .kinematics import Bend, Point, Pose, moved, pose
from .svg import drawing, place, text

_HEAD = 17
_BACK = 15
"""From the line of the trunk to the surface of the back, and from the ankle to the sole: so that back and
soles rest on one floor."""
_FRONT = 19
_THICK = 9
"""From the line of a limb to what it rests on."""
_ARC = 30
_MARGIN = 16
_LABEL = 15


def draw_body(words: Words, position: Position) -> Markup:
    """A position seen in the plane in which its joints bend.

    Each part of the body is a path `limb PART` from its joint outwards. A joint that is shown has a dashed
    path `zero` in the direction of 0, an arc, and its degrees.
    """
    found = pose(position)
    sheet = _Sheet()
    _supports(sheet, position, found)
    for part in position.under:
        _cushion(sheet, found, part)
    _trunk(sheet, found)
    _head(sheet, found)
    _foot(sheet, found)
    for part in ("upper_arm", "forearm", "thigh", "shank"):
        sheet.line(f"limb {part}", *found.parts[part])
    for joint in ("shoulder", "hip", "knee"):
        sheet.dot("joint", found.bends[joint].at, 4)
    for joint in position.shows:
        _bend(sheet, found.bends[joint], _degrees(words, position, joint))
    return sheet.drawing(position.title, position.text)


def bends(words: Words, position: Position) -> list[tuple[str, str]]:
    """The shown joints with their angles in words, for the table beside the figure."""
    return [(joint_name(words, joint), _degrees(words, position, joint)) for joint in position.shows]


def joint_name(words: Words, joint: Joint) -> str:
    names = {
        "hip": words.say("Hip"),
        "knee": words.say("Knee"),
        "ankle": words.say("Ankle"),
        "neck": words.say("Neck"),
        "shoulder": words.say("Shoulder"),
        "elbow": words.say("Elbow"),
    }
    return names[joint]


def _degrees(words: Words, position: Position, joint: Joint) -> str:
    return quantity(words, position.joints.get(joint, 0), "deg")


@dataclass
class _Sheet:
    """Parts of a drawing in body coordinates (y upwards), and how far they reach."""

    parts: list[str] = field(default_factory=list)
    xs: list[float] = field(default_factory=list)
    ys: list[float] = field(default_factory=list)

    def reach(self, point: Point, around: float = 0) -> None:
        self.xs += [point[0] - around, point[0] + around]
        self.ys += [point[1] - around, point[1] + around]

    def line(self, css: str, *points: Point) -> None:
        for point in points:
            self.reach(point)
        steps = " L ".join(_at(point) for point in points)
        self.parts.append(f'<path class="{css}" d="M {steps}"/>')

    def shape(self, css: str, points: Iterable[Point]) -> None:
        corners = list(points)
        for point in corners:
            self.reach(point)
        self.parts.append(f'<path class="{css}" d="M {" L ".join(_at(point) for point in corners)} z"/>')

    def dot(self, css: str, point: Point, radius: float) -> None:
        self.reach(point, radius)
        x, y = _at(point).split()
        self.parts.append(f'<circle class="{css}" cx="{x}" cy="{y}" r="{place(radius)}"/>')

    def label(self, css: str, words: str, point: Point) -> None:
        self.reach(point, 12)
        self.parts.append(text(css, words, point[0], -point[1] + 5))

    def drawing(self, title: str, words: str) -> Markup:
        left, right = min(self.xs) - _MARGIN, max(self.xs) + _MARGIN
        low, high = min(self.ys) - _MARGIN, max(self.ys) + _MARGIN
        moved_parts = f'<g transform="translate({place(-left)} {place(high)})">{"".join(self.parts)}</g>'
        return drawing("body", right - left, high - low, title, [moved_parts], " ".join(words.split()))


def _at(point: Point) -> str:
    return f"{place(point[0])} {place(-point[1])}"


def _beside(found: Pose, part: Part, share: float, away: float) -> Point:
    """A point beside a part: `share` along it, `away` from it towards the front of the body."""
    start, _ = found.parts[part]
    length = math.dist(*found.parts[part])
    return moved(moved(start, found.directions[part], share * length), found.directions[part] - 90, away)


def _trunk(sheet: _Sheet, found: Pose) -> None:
    """Pelvis and ribcage as two shapes on the line of the spine."""
    sheet.line("limb trunk", *found.parts["trunk"])
    pelvis = [
        (-0.15, 0),
        (-0.12, -12),
        (0.02, -_BACK),
        (0.2, -12),
        (0.24, 0),
        (0.16, 13),
        (-0.02, 14),
        (-0.13, 9),
    ]
    ribs = [
        (0.42, -8), (0.5, -13), (0.64, -_BACK), (0.8, -13), (0.93, -6), (0.95, 2),
        (0.86, 11), (0.7, 17), (0.56, _FRONT), (0.47, 14), (0.43, 3),
    ]  # fmt: skip
    for css, outline in (("pelvis", pelvis), ("ribs", ribs)):
        _smooth(sheet, css, [_beside(found, "trunk", share, away) for share, away in outline])


def _smooth(sheet: _Sheet, css: str, points: list[Point]) -> None:
    """A closed outline through the middles of the sides, bent at the corners (quadratic Bézier curves)."""
    for point in points:
        sheet.reach(point)
    middles = [_middle(point, points[(at + 1) % len(points)]) for at, point in enumerate(points)]
    curves = [f"Q {_at(points[at])} {_at(middles[at])}" for at in range(len(points))]
    sheet.parts.append(f'<path class="{css}" d="M {_at(middles[-1])} {" ".join(curves)} z"/>')


def _middle(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def _head(sheet: _Sheet, found: Pose) -> None:
    neck, top = found.parts["head"]
    to = found.directions["head"]
    sheet.line("limb neck", neck, moved(neck, to, 12))
    middle = moved(top, to, -5)
    nose = moved(moved(middle, to, -2), to - 90, _HEAD + 5)
    sheet.line("nose", moved(moved(middle, to, 5), to - 90, _HEAD - 2), nose,
               moved(moved(middle, to, -6), to - 90, _HEAD - 2))  # fmt: skip
    sheet.dot("skull", middle, _HEAD)


def _foot(sheet: _Sheet, found: Pose) -> None:
    ankle, _ = found.parts["foot"]
    to = found.directions["foot"]
    heel = moved(moved(ankle, to, -9), to - 90, _BACK)
    toes = moved(moved(ankle, to, 27), to - 90, _BACK)
    sheet.shape("sole", [ankle, heel, toes])
    sheet.line("limb foot", heel, toes)


def _bend(sheet: _Sheet, bend: Bend, label: str) -> None:
    """The direction of 0, dashed; the arc from there to the part; the degrees beside its middle."""
    turn = bend.now - bend.zero
    sheet.line("zero", bend.at, moved(bend.at, bend.zero, _ARC + 10))
    if abs(turn) >= 1:
        start, end = moved(bend.at, bend.zero, _ARC), moved(bend.at, bend.now, _ARC)
        sweep = 0 if turn > 0 else 1
        large = int(abs(turn) > 180)
        size = place(_ARC)
        sheet.parts.append(
            f'<path class="arc" d="M {_at(start)} A {size} {size} 0 {large} {sweep} {_at(end)}"/>'
        )
    aside = bend.zero + turn / 2 if abs(turn) >= 25 else bend.zero + math.copysign(30, turn or 1)
    x, y = moved(bend.at, aside, _ARC + _LABEL)
    sheet.label("degrees", label, (x + 6 * math.cos(math.radians(aside)), y))


_THICKNESS: dict[Part, float] = {
    "head": _HEAD, "trunk": _BACK, "upper_arm": _THICK, "forearm": 1, "thigh": 14, "shank": 13, "foot": _BACK,
}  # fmt: skip


def _supports(sheet: _Sheet, position: Position, found: Pose) -> None:
    touched = {kind: list(parts) for kind, parts in position.rests_on.items()}
    floor = min((_lowest(found, part) for part in touched.get("floor", ())), default=None)
    spread = [point for ends in found.parts.values() for point in ends]
    left, right = min(x for x, _ in spread) - 26, max(x for x, _ in spread) + 26
    if "wall" in touched:
        edge = max(_furthest(found, part) for part in touched["wall"])
        foot = floor if floor is not None else min(y for _, y in spread) - 24
        _ground(sheet, "wall", (edge, foot), (edge, max(y for _, y in spread) + 24))
        right = edge
    if "bench" in touched:
        seat = min(_lowest(found, part) for part in touched["bench"])
        ends = [point for part in touched["bench"] for point in found.parts[part]]
        first, last = min(x for x, _ in ends) - 22, max(x for x, _ in ends) - 22
        under = floor if floor is not None else seat - 70
        sheet.shape("bench", [(first, seat), (last, seat), (last, seat - 9), (first, seat - 9)])
        for leg in (first + 8, last - 8):
            sheet.line("bench-leg", (leg, seat - 9), (leg, under))
    if floor is not None:
        _ground(sheet, "floor", (left, floor), (right, floor))


def _lowest(found: Pose, part: Part) -> float:
    if part == "head":
        return moved(found.parts["head"][1], found.directions["head"], -5)[1] - _HEAD
    if part == "foot":
        ankle, to = found.parts["foot"][0], found.directions["foot"]
        return min(moved(moved(ankle, to, along), to - 90, _BACK)[1] for along in (-9, 27))
    return min(y for _, y in found.parts[part]) - _THICKNESS[part]


def _furthest(found: Pose, part: Part) -> float:
    if part == "foot":
        ankle, to = found.parts["foot"][0], found.directions["foot"]
        return max(moved(moved(ankle, to, along), to - 90, _BACK)[0] for along in (-9, 27))
    return max(x for x, _ in found.parts[part]) + _THICKNESS[part]


def _ground(sheet: _Sheet, css: str, start: Point, end: Point) -> None:
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
        strokes.append(f"M {_at(spot)} L {_at(other)}")
    sheet.parts.append(f'<path class="solid" d="{" ".join(strokes)}"/>')


def _cushion(sheet: _Sheet, found: Pose, part: Part) -> None:
    """Something soft below a part of the body."""
    start, end = found.parts[part]
    middle = moved(end, found.directions[part], -5) if part == "head" else _middle(start, end)
    x, y = middle[0], middle[1] - _THICKNESS[part] - 4
    _smooth(sheet, "cushion", [(x - 24, y + 5), (x + 24, y + 5), (x + 26, y - 5), (x - 26, y - 5)])
