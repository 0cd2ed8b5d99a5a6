"""What is seen of a trunk, as still pictures and as the numbers by which the browser moves one."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.course import Breath, Look, Position
from builder.words import Words

from .body import before, behind, draw_pelvis, draw_trunk, leg
from .breathing import TILTS, Moment, cycle_of, moments, trunk_at
from .kinematics import Pose, beside, middle, moved, pose
from .sheet import Sheet
from .trunk import PELVIS, SHIRT, Trunk, outline

BREATHS = 2
"""A figure that moves shows so many, and stands still again."""


def layers(position: Position) -> Markup:
    """What stays the same in every picture of a position, to be drawn once on a page and used by each."""
    found = pose(position)
    drawn = {"behind": Sheet(), "leg": Sheet(), "before": Sheet()} | {_tilted(one): Sheet() for one in TILTS}
    behind(drawn["behind"], position, found)
    leg(drawn["leg"], found)
    before(drawn["before"], found)
    for tilt in TILTS:
        draw_pelvis(drawn[_tilted(tilt)], found, tilt, inside=True)
    parts = [
        f'<g class="body" id="{_layer(position, name)}">{"".join(sheet.parts)}</g>'
        for name, sheet in drawn.items()
    ]
    return Markup(f'<svg class="body layers" aria-hidden="true"><defs>{"".join(parts)}</defs></svg>')


def _tilted(tilt: float) -> str:
    return f"pelvis{tilt:.0f}"


def _layer(position: Position, name: str) -> str:
    return f"body-{position.name}-{name}"


def draw_seen(words: Words, position: Position, look: Look, moment: Moment) -> Markup:
    """One still picture of a body that looks so, from the head to the thighs unless the legs tell something.
    The page must hold its `layers`."""
    found, now = pose(position), trunk_at(look, moment.full)
    sheet = Sheet()
    hip, to = found.parts["trunk"][0], found.directions["trunk"]

    def use(name: str) -> None:
        sheet.parts.append(f'<use href="#{_layer(position, name)}"/>')

    use("behind")
    draw_trunk(sheet, found, now, inside=True)
    use("leg")
    if now.tilt in TILTS:
        use(_tilted(now.tilt))
    else:
        draw_pelvis(sheet, found, now.tilt, inside=True)
    use("before")
    _signs(sheet, found, now, look, moment)
    thigh = found.parts["thigh"][1]
    ends = [thigh, found.parts["shank"][1]] if "shake" in look["legs"] else [middle(hip, thigh)]
    base, up = found.parts["head"][0], found.directions["head"]
    face = [beside(base, up, along, away) for along, away in ((58.0, -20.0), (58.0, 20.0), (30.0, 40.0))]
    sheet.cut([*face, *outline(SHIRT, _WIDEST, hip, to), *outline(PELVIS, now, hip, to), *ends], 4)
    return sheet.drawing(_moment(words, moment), "")


_WIDEST = Trunk(belly=1.2, flare=0.6)
"""So far a picture reaches, so that all of a position are of one size."""


def stills(words: Words, position: Position, look: Look) -> list[tuple[str, Markup]]:
    """Three moments of a breath in words, each with its picture."""
    return [(_moment(words, one), draw_seen(words, position, look, one)) for one in moments(look)]


def motion(look: Look, breath: Breath | None) -> dict[str, Any]:
    """How a browser moves the stills: the lengths of a breath in seconds, and whether it halts. Every point
    goes in a straight line from its place in the first still, with full lungs, to that in the last."""
    cycle = cycle_of(look, breath)
    return {
        "cycle": [cycle.out, cycle.rest, cycle.into],
        "stops": "stops" in look["breath"],
        "breaths": BREATHS,
        "shakes": "shake" in look["legs"],
    }


def _signs(sheet: Sheet, found: Pose, now: Trunk, look: Look, moment: Moment) -> None:
    """What no outline tells: a belly that is hard, a neck that works, legs that shake, air that goes."""
    hip, to = found.parts["trunk"][0], found.directions["trunk"]
    if "hard" in look["belly"]:
        # Ridges along the wall, as where muscle is tight under a shirt.
        wall = outline(SHIRT, now, hip, to)[9:13]
        for deep in (6.0, 11.0):
            sheet.curve("strain", [moved(point, to + 90, deep) for point in wall])
    if "works" in look["neck"]:
        base = found.parts["head"][0]
        for along, away in ((2, 1), (2, 5)):
            start = beside(base, found.directions["head"], along, away)
            sheet.line("strain", start, beside(base, found.directions["head"], along + 17, away - 3))
    if "shake" in look["legs"]:
        _shakes(sheet, found)
    if moment.blows:
        _wisps(sheet, found)


def _shakes(sheet: Sheet, found: Pose) -> None:
    """Two strokes beside each part of the leg, before it, where nothing else lies."""
    for part in ("thigh", "shank"):
        centre, to = middle(*found.parts[part]), found.directions[part]
        for away in (26.0, 33.0):
            sheet.curve(
                "shakes",
                [beside(centre, to, along, -(away + bow)) for along, bow in ((-13, 0), (0, 3), (13, 0))],
            )


def _wisps(sheet: Sheet, found: Pose) -> None:
    """Air from the mouth."""
    base, to = found.parts["head"][0], found.directions["head"]
    for along in (29.0, 25.0, 33.0):
        sheet.curve(
            "air",
            [beside(base, to, along + lift, 23.0 + away) for away, lift in ((0, 0), (7, 1.5), (14, -1.0))],
        )


def _moment(words: Words, moment: Moment) -> str:
    if moment.full > 0.9:
        return words.say("At the end of the breath in")
    if moment.full < 0.1:
        return words.say("At the end of the breath out")
    return words.say("On the way out")


def told(words: Words, look: Look) -> str:
    """What is seen in words, without the name of any fault."""
    said = {
        ("pelvis", "back"): words.say("the pelvis is tipped back"),
        ("pelvis", "forward"): words.say("the pelvis is tipped forward"),
        ("ribs", "down"): words.say("the lower ribs come down as the air goes out"),
        ("ribs", "flared"): words.say("the lower ribs stand up and out in front"),
        ("belly", "sinks"): words.say("the belly sinks as the air goes out"),
        ("belly", "soft"): words.say("the belly is soft"),
        ("belly", "out"): words.say("the belly stands out"),
        ("belly", "hard"): words.say("the belly is tight"),
        ("neck", "works"): words.say("cords stand out on the neck"),
        ("chest", "widens"): words.say("the lower chest widens with the breath in"),
        ("chest", "still"): words.say("the chest does not move"),
        ("chest", "lifts"): words.say("the breastbone and the shoulders rise with the breath in"),
        ("back", "hollow"): words.say("the low back is hollow"),
        ("back", "long"): words.say("the low back is long"),
        ("legs", "shake"): words.say("the legs shake"),
        ("breath", "fast"): words.say("the breath goes fast"),
        ("breath", "stops"): words.say("the breath halts half way out"),
    }
    parts = [said[term, value] for term, values in look.items() for value in values if (term, value) in said]
    whole = "; ".join(parts)
    return f"{whole[:1].upper()}{whole[1:]}." if whole else ""
