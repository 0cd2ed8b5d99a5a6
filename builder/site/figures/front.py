"""The body seen from the front, facing the viewer, where limbs that point out of the page are foreshortened.

And the trunk alone, with the angle below its ribs."""

from __future__ import annotations

import math

from markupsafe import Markup

from builder.course import Position
from builder.words import Words

from .kinematics import HAND, LENGTHS, SOLE, Point, directions
from .outline import at, capsule
from .sheet import Sheet
from .trunk import Away

_SHOULDER: Point = (33.0, 79.0)
_HIP: Point = (14.5, 0.0)

SHIRT: tuple[Away, ...] = (
    (7, 91), (20, 88), (36, 82), (38.5, 74), (33, 66), (31, 52), (28.5, 38), (25.5, 24), (27.5, 8), (29, -6),
)  # fmt: skip
"""Half of the trunk from the neck down: away from the middle, and up from the hips."""
PELVIS: tuple[Away, ...] = ((26.5, 15), (29.5, 4), (31.5, -10), (24, -18), (8, -20))
FACE: tuple[Away, ...] = ((0, 55), (9, 53), (14.5, 46), (15, 37), (12.5, 27), (7, 19.5), (0, 17.5))
HAIR: tuple[Away, ...] = ((0, 57.5), (11, 55), (17, 47), (17, 37), (14.6, 40), (12, 48), (5, 50.5), (0, 50))


def draw_front(words: Words, position: Position) -> Markup:
    """A position from the front, head up, whatever it lies on."""
    to = directions(position)
    sheet = Sheet()
    up = to["trunk"]
    floor = _legs(sheet, {part: to[part] - up for part in ("thigh", "shank")})
    _neck_and_head(sheet)
    shape(sheet, "shirt trunk", SHIRT)
    shape(sheet, "cloth pelvis", PELVIS)
    _arms(sheet, to["upper_arm"] - up, to["forearm"] - up)
    if "foot" in position.rests_on.get("floor", ()):
        sheet.line("floor", (-70, floor), (70, floor))
    return sheet.drawing(position.title, position.text)


def shape(sheet: Sheet, css: str, half: tuple[Away, ...]) -> None:
    """Both halves of what is alike on both sides."""
    other = [(-x, y) for x, y in reversed(half) if x]
    sheet.shape(css, [*half, *other])


def _down(length: float, turned: float) -> float:
    """How far down a limb reaches that points so, in degrees from the direction of the head."""
    return length * -math.cos(math.radians(turned))


def _legs(sheet: Sheet, turned: dict[str, float]) -> float:
    low = 0.0
    for side in (-1, 1):
        hip = side * _HIP[0], _HIP[1]
        knee = side * (_HIP[0] + 1), -_down(LENGTHS["thigh"], turned["thigh"])
        ankle = side * (_HIP[0] + 1.5), knee[1] - _down(LENGTHS["shank"], turned["shank"])
        toes = [(-6, 4), (6, 4), (9.5, -SOLE + 3), (7, -SOLE), (-7, -SOLE), (-9.5, -SOLE + 3)]
        sheet.shape("skin foot", [(ankle[0] + x + 2 * side, ankle[1] + y) for x, y in toes])
        links = [("thigh", hip, knee), ("shank", knee, ankle)]
        sheet.limb("", *(link for link in links if math.dist(link[1], link[2]) > 8))
        hem = hip[0] + 0.56 * (knee[0] - hip[0]), hip[1] + 0.56 * (knee[1] - hip[1])
        sheet.parts.append(f'<path class="cloth" d="{capsule(hip, hem, 17, 15.6)}"/>')
        low = min(low, ankle[1] - SOLE)
    return low


def _arms(sheet: Sheet, upper: float, fore: float) -> None:
    for side in (-1, 1):
        shoulder = side * _SHOULDER[0], _SHOULDER[1]
        elbow = side * (_SHOULDER[0] + 8), shoulder[1] - _down(LENGTHS["upper_arm"], upper)
        wrist = side * (_SHOULDER[0] + 11), elbow[1] - _down(LENGTHS["forearm"], fore)
        tips = wrist[0], wrist[1] - _down(HAND * 0.75, fore)
        links = [("upper_arm", shoulder, elbow), ("forearm", elbow, wrist), ("hand", wrist, tips)]
        sheet.limb("", *(link for link in links if math.dist(link[1], link[2]) > 5))
        hem = shoulder[0] + 0.5 * (elbow[0] - shoulder[0]), shoulder[1] + 0.5 * (elbow[1] - shoulder[1])
        sheet.parts.append(f'<path class="shirt" d="{capsule(shoulder, hem, 10.5, 10)}"/>')


def _neck_and_head(sheet: Sheet) -> None:
    base = 86.0
    sheet.limb("", ("neck", (0, base - 4), (0, base + 22)))
    for side in (-1, 1):
        sheet.dot("skin ear", (side * 15.5, base + 35), 3.4)
    shape(sheet, "skin face", tuple((x, base + y) for x, y in FACE))
    shape(sheet, "hair", tuple((x, base + y) for x, y in HAIR))
    for side in (-1, 1):
        sheet.dot("eye", (side * 5.6, base + 38.5), 1.5)
    sheet.curve("line", [(0.4, base + 36), (2.4, base + 31), (0, base + 30.4)])
    sheet.curve("line", [(-4, base + 25), (0, base + 24), (4, base + 25)])


_TIP: Point = (0.0, 56.0)
"""The lower end of the breastbone."""
_LONG = 46.0


TORSO: tuple[Away, ...] = (
    (9, 96), (22, 90), (44, 82), (47, 70), (43, 58), (43, 40), (38, 24), (37, 10), (38, -8), (40, -18),
)  # fmt: skip


def draw_ribs(
    angle: float, title: str, words_of_it: str, told: str = "", torso: str = "", again: bool = False
) -> Markup:
    """The trunk from the front, with the lower edges of the ribs at an angle to each other, in degrees; with
    the angle as an arc where it is told. `torso` names the trunk on its page; it is drawn by the first of
    several pictures, and used `again` by the others."""
    sheet = Sheet()
    _torso(sheet, torso, again)
    half = math.radians(angle / 2)
    for way in (-1, 1):
        end = way * math.sin(half) * _LONG, _TIP[1] - math.cos(half) * _LONG
        sheet.line("edge", _TIP, end)
        sheet.curve("edge more", [end, (way * (abs(end[0]) + 0.55 * (43 - abs(end[0]))), end[1] - 4)])
    if told:
        size = 22.0
        start, end = ((way * math.sin(half) * size, _TIP[1] - math.cos(half) * size) for way in (-1, 1))
        sheet.parts.append(f'<path class="arc" d="M {at(start)} A 22 22 0 0 0 {at(end)}"/>')
        sheet.label("degrees", told, (0, _TIP[1] - size - 14))
    return sheet.drawing(title, words_of_it)


def _torso(sheet: Sheet, name: str, again: bool) -> None:
    own = Sheet()
    shape(own, "skin trunk", TORSO)
    for way in (-1, 1):
        own.curve("line", [(way * 9, 96), (way * 14, 91), (way * 30, 87)])
    own.curve("line", [(0, 92), (0, 74), _TIP])
    shape(own, "cloth pelvis", ((37, -6), (40, -18), (30, -32), (8, -34)))
    sheet.xs, sheet.ys = own.xs, own.ys
    if again:
        sheet.parts.append(f'<use href="#{name}"/>')
    else:
        mark = f' id="{name}"' if name else ""
        sheet.parts.append(f'<g class="body"{mark}>{"".join(own.parts)}</g>')
