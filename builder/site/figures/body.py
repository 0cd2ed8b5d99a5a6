"""The body drawn by numbers from the angles of its joints: from the side or, on its side, from above."""

from __future__ import annotations

import math
from collections.abc import Iterable

from markupsafe import Markup

from builder.course import Joint, Position
from builder.words import Words
from builder.words.numbers import quantity

from . import head
from .ground import cushions, ground
from .kinematics import HAND, HEEL, LENGTHS, SOLE, Bend, Point, Pose, apart, beside, moved, pose
from .outline import at, capsule
from .sheet import THICK, Sheet
from .svg import place
from .trunk import BAND, DOME, FLOOR, PELVIS, QUIET, RIBS, SHIRT, Trunk, outline

_ARC = 34
_LABEL = 17


def draw_body(words: Words, position: Position) -> Markup:
    """A position seen in the plane in which its joints bend.

    Each limb is a tapered capsule `limb PART` about the line between its joints. A joint that is shown has a
    dashed path `zero` in the direction of 0, an arc, and its degrees.
    """
    found = pose(position)
    sheet = figure(position, found, QUIET)
    for joint in position.shows:
        _bend(sheet, found.bends[joint], _degrees(words, position, joint))
    return sheet.drawing(position.title, position.text)


def draw_joint(words: Words, position: Position, title: str, told: str) -> Markup:
    """A position to read a joint off: its first shown joint with its direction of 0, and the arc with its
    degrees where they are told."""
    found = pose(position)
    sheet = figure(position, found, QUIET)
    bend = found.bends[position.shows[0]]
    if told:
        _bend(sheet, bend, told)
    else:
        _zero(sheet, bend)
    return sheet.drawing(title, words.say("A body from the side; the dashed line is where 0° would be."))


def figure(position: Position, found: Pose, now: Trunk) -> Sheet:
    """A body in a position, with the trunk as it is now."""
    sheet = Sheet()
    behind(sheet, position, found)
    draw_trunk(sheet, found, now)
    leg(sheet, found)
    draw_pelvis(sheet, found, now.tilt)
    before(sheet, found)
    return sheet


def behind(sheet: Sheet, position: Position, found: Pose) -> None:
    """What lies behind the trunk: what carries the body, the other arm and leg, which show that there are two
    and of someone on the side lie below, the head, and an arm that lies beside the trunk."""
    above = position.seen == "above"
    ground(sheet, position, found)
    cushions(sheet, position, found)
    leg(sheet, found, far=True, offset=(13.0, -9.0) if above else (5.0, 2.0))
    _arm(sheet, found, far=True, offset=(5.0, -6.0) if above else (4.0, 1.0), turned=-22.0 if above else 0.0)
    if not _reaches(found):
        _arm(sheet, found)
    _neck_and_head(sheet, found)


def before(sheet: Sheet, found: Pose) -> None:
    """What lies before trunk and legs: an arm that reaches out."""
    if _reaches(found):
        _arm(sheet, found)


def _reaches(found: Pose) -> bool:
    return apart(found.directions["upper_arm"], found.directions["trunk"] + 180) > 30


def view_label(words: Words, position: Position) -> str:
    names = {"side": words.say("Seen from the side"), "above": words.say("Seen from above")}
    return names[position.seen]


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


def _shifted(point: Point, offset: Point) -> Point:
    return point[0] + offset[0], point[1] + offset[1]


def leg(sheet: Sheet, found: Pose, far: bool = False, offset: Point = (0.0, 0.0)) -> None:
    hip, knee = (_shifted(one, offset) for one in found.parts["thigh"])
    ankle = _shifted(found.parts["shank"][1], offset)
    css = " far" if far else ""
    _foot(sheet, ankle, found.directions["foot"], css)
    sheet.limb(css, ("thigh", hip, knee), ("shank", knee, ankle))
    # The shorts end above the knee.
    hem = moved(hip, found.directions["thigh"], LENGTHS["thigh"] * 0.56)
    way = capsule(hip, hem, THICK["thigh"][0], 15.6)
    sheet.parts.append(f'<path class="cloth{css}" d="{way}"/>')


def _foot(sheet: Sheet, ankle: Point, to: float, css: str) -> None:
    """From the heel along the sole to the toes and over the instep."""
    length = LENGTHS["foot"]
    outline = [
        (-HEEL + 2, SOLE), (-HEEL, SOLE - 5), (-HEEL + 2, SOLE - 11), (-7, -3), (5, -5), (12, 0),
        (length - 22, SOLE - 8), (length - HEEL - 2, SOLE - 6), (length - HEEL, SOLE - 1.5),
        (length - HEEL - 3, SOLE), (length / 2 - HEEL, SOLE),
    ]  # fmt: skip
    sheet.shape(f"skin foot{css}", [beside(ankle, to, along, away) for along, away in outline])


def _arm(
    sheet: Sheet, found: Pose, far: bool = False, offset: Point = (0.0, 0.0), turned: float = 0.0
) -> None:
    css = " far" if far else ""
    shoulder = _shifted(found.parts["upper_arm"][0], offset)
    upper, fore = (found.directions[part] + turned for part in ("upper_arm", "forearm"))
    elbow = moved(shoulder, upper, math.dist(*found.parts["upper_arm"]))
    wrist = moved(elbow, fore, math.dist(*found.parts["forearm"]))
    if found.flat_hand is None:
        tips = moved(wrist, fore, HAND * 0.75)
    else:
        wrist, tips = moved(wrist, fore, -4), moved(wrist, found.flat_hand, HAND * 0.6)
    sheet.limb(css, ("upper_arm", shoulder, elbow), ("forearm", elbow, wrist), ("hand", wrist, tips))
    sleeve = moved(shoulder, upper, LENGTHS["upper_arm"] * 0.5)
    sheet.parts.append(f'<path class="shirt{css}" d="{capsule(shoulder, sleeve, 10.5, 10)}"/>')


def _neck_and_head(sheet: Sheet, found: Pose) -> None:
    base, to = found.parts["head"][0], found.directions["head"]
    start = moved(base, found.directions["trunk"], -6)
    sheet.limb("", ("neck", start, beside(base, to, 26, -2)))

    def on(points: Iterable[tuple[float, float]]) -> list[Point]:
        return [beside(base, to, along, away) for along, away in points]

    sheet.shape("skin face", on(head.FACE))
    sheet.shape("hair", on(head.HAIR))
    sheet.dot("skin ear", on([head.EAR])[0], 3.4)
    sheet.dot("eye", on([head.EYE])[0], 1.5)


def draw_trunk(sheet: Sheet, found: Pose, now: Trunk, inside: bool = False) -> None:
    """With the edge of the ribs; with what lies `inside`, the breathing muscle too."""
    hip, to = found.parts["trunk"][0], found.directions["trunk"]
    sheet.shape("shirt trunk", outline(SHIRT, now, hip, to))
    sheet.curve("ribs", outline(RIBS, now, hip, to))
    if inside:
        sheet.curve("inside dome", outline(DOME, now, hip, to))


def draw_pelvis(sheet: Sheet, found: Pose, tilt: float, inside: bool = False) -> None:
    """Turned by its tilt, in degrees; with what lies `inside`, the pelvic floor too."""
    hip, to = found.parts["trunk"][0], found.directions["trunk"] + tilt
    sheet.shape("cloth pelvis", outline(PELVIS, QUIET, hip, to))
    sheet.curve("band", outline(BAND, QUIET, hip, to))
    if inside:
        sheet.curve("inside floor", outline(FLOOR, QUIET, hip, to))


def _zero(sheet: Sheet, bend: Bend) -> None:
    """The direction of 0, dashed."""
    sheet.line("zero", bend.at, moved(bend.at, bend.zero, _ARC + 10))


def _bend(sheet: Sheet, bend: Bend, label: str) -> None:
    """The direction of 0, dashed; the arc from there to the part; the degrees beside its middle."""
    turn = bend.now - bend.zero
    _zero(sheet, bend)
    if abs(turn) >= 1:
        start, end = moved(bend.at, bend.zero, _ARC), moved(bend.at, bend.now, _ARC)
        sweep = 0 if turn > 0 else 1
        large = int(abs(turn) > 180)
        size = place(_ARC)
        sheet.parts.append(
            f'<path class="arc" d="M {at(start)} A {size} {size} 0 {large} {sweep} {at(end)}"/>'
        )
    aside = bend.zero + turn / 2 if abs(turn) >= 25 else bend.zero + math.copysign(30, turn or 1)
    x, y = moved(bend.at, aside, _ARC + _LABEL)
    sheet.label("degrees", label, (x + 6 * math.cos(math.radians(aside)), y))
