"""Figures of positions, read back from their SVG: the stated angles are the drawn ones."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from pathlib import Path
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree

from builder.course import Joint, Position
from builder.site.figures import draw_body
from builder.site.figures.front import draw_front, draw_ribs
from builder.site.figures.kinematics import pose
from builder.source import load
from builder.words import ENGLISH

WITHIN = 0.5
"""Degrees."""
NAMES = ["side_lying", "back_feet_on_wall", "hook_lying", "seated", "hands_and_knees", "standing"]
LINE_OF_ZERO = {
    "hip": ("trunk", 180),
    "knee": ("thigh", 0),
    "shoulder": ("trunk", 180),
    "elbow": ("upper_arm", 0),
}
"""Neutral-zero method, Cave and Roberts, J Bone Joint Surg Am 1936;18:455-465 (from memory): flexion counts
from the straight limb, so the 0 of a joint goes on in the line of the part before it."""
MOVED = {"hip": "thigh", "knee": "shank", "shoulder": "upper_arm", "elbow": "forearm"}


@pytest.fixture
def position(request, drill_course: Path) -> Position:
    loaded = load(drill_course)
    assert loaded.problems == ()
    return loaded.course.positions[request.param]


def svg(position: Position):
    return etree.fromstring(str(draw_body(ENGLISH, position)))


def points(path: str) -> list[tuple[float, float]]:
    """Where the pieces of a path of lines, arcs and cubic curves end; the page's y points down."""
    found = []
    for letter, part in re.findall(r"([MLCA])([^MLCAZ]*)", path):
        numbers = [float(one) for one in part.split()]
        size = {"M": 2, "L": 2, "C": 6, "A": 7}[letter]
        assert numbers, path
        assert len(numbers) % size == 0, path
        found += [(numbers[at + size - 2], -numbers[at + size - 1]) for at in range(0, len(numbers), size)]
    return found


def direction(start: tuple[float, float], end: tuple[float, float]) -> float:
    return math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))


def ends(tree, part: str) -> tuple[tuple[float, float], tuple[float, float]]:
    """The joints at both ends of a limb: the centres of the two circles of its capsule."""
    [path] = tree.xpath(f"//path[@class='limb {part}']/@d")
    d, a, b, c = points(path)
    first, last = (float(one) for one in re.findall(r"A (\S+)", path))
    near, far = ((a[0] + d[0]) / 2, (a[1] + d[1]) / 2), ((b[0] + c[0]) / 2, (b[1] + c[1]) / 2)
    length = math.dist(near, far)
    for _ in range(20):  # the tangents touch each circle a little aside of its middle
        lean = (first - last) / length
        length = math.dist(near, far) + (first - last) * lean
    along = (far[0] - near[0]) / math.dist(near, far), (far[1] - near[1]) / math.dist(near, far)
    return tuple(
        (middle[0] - radius * lean * along[0], middle[1] - radius * lean * along[1])
        for middle, radius in ((near, first), (far, last))
    )


def limb(tree, part: str) -> float:
    if part == "trunk":  # from the hip to the shoulder
        return direction(ends(tree, "thigh")[0], ends(tree, "upper_arm")[0])
    return direction(*ends(tree, part))


def apart(one: float, other: float) -> float:
    return abs((one - other + 180) % 360 - 180)


def drawn_angle(tree, joint: str) -> float:
    """The size of the angle between the joint's line of 0 and the limb."""
    before, turn = LINE_OF_ZERO[joint]
    return apart(limb(tree, MOVED[joint]), limb(tree, before) + turn)


@pytest.mark.parametrize("position", NAMES, indirect=True)
def test_the_drawn_angles_are_the_stated_ones(position: Position) -> None:
    tree = svg(position)
    for joint in ("hip", "knee", "shoulder", "elbow"):
        stated = abs(float(position.joints.get(joint, 0)))
        assert drawn_angle(tree, joint) == pytest.approx(stated, abs=WITHIN), joint


@pytest.mark.parametrize("position", NAMES, indirect=True)
def test_arcs_run_from_zero_to_the_limb_and_bear_their_degrees(position: Position) -> None:
    tree = svg(position)
    labels = tree.xpath("//text[@class='degrees']/text()")
    assert labels == [f"{position.joints.get(joint, 0)}°" for joint in position.shows]
    zeros = [points(path) for path in tree.xpath("//path[@class='zero']/@d")]
    arcs = iter(tree.xpath("//path[@class='arc']/@d"))
    for joint, (at, beyond) in zip(position.shows, zeros, strict=True):
        before, turn = LINE_OF_ZERO[joint]
        assert apart(direction(at, beyond), limb(tree, before) + turn) < WITHIN
        if position.joints.get(joint, 0):
            numbers = [float(one) for one in re.findall(r"-?\d+(?:\.\d+)?", next(arcs))]
            start, end = (numbers[0], -numbers[1]), (numbers[-2], -numbers[-1])
            swept = apart(direction(at, end), direction(at, start))
            assert swept == pytest.approx(abs(float(position.joints[joint])), abs=WITHIN)
            assert apart(direction(at, end), limb(tree, MOVED[joint])) < WITHIN
    assert next(arcs, None) is None


def test_which_way_joints_bend(drill_course: Path) -> None:
    found = load(drill_course).course.positions
    back = svg(found["back_feet_on_wall"])
    assert apart(limb(back, "thigh"), 90) < WITHIN, "lying on the back, the bent hip points up"
    assert apart(limb(back, "shank"), 0) < WITHIN
    seated = svg(found["seated"])
    assert apart(limb(seated, "thigh"), 0) < WITHIN, "seated, facing right"
    assert apart(limb(seated, "shank"), -90) < WITHIN
    crawling = svg(found["hands_and_knees"])
    assert apart(limb(crawling, "thigh"), -90) < WITHIN, "the front of the body looks down"
    assert apart(limb(crawling, "upper_arm"), -90) < WITHIN


@pytest.mark.parametrize("position", NAMES, indirect=True)
def test_words_instead_of_the_figure_and_nothing_outside_its_frame(position: Position) -> None:
    tree = svg(position)
    assert tree.get("role") == "img"
    assert tree.findtext("title") == position.title
    assert tree.findtext("desc") == " ".join(position.text.split())
    _, _, width, height = (float(one) for one in tree.get("viewBox").split())
    shift = [float(one) for one in re.findall(r"-?\d+(?:\.\d+)?", tree.find("g").get("transform"))]
    for path in tree.xpath("//path/@d"):
        for x, y in points(path):
            assert 0 <= x + shift[0] <= width
            assert 0 <= -y + shift[1] <= height


@given(
    trunk=st.integers(-180, 360),
    hip=st.integers(-45, 150),
    knee=st.integers(-15, 165),
    shoulder=st.integers(-70, 180),
    elbow=st.integers(-15, 160),
)
def test_any_position_is_drawn_as_it_is_stated(trunk, hip, knee, shoulder, elbow) -> None:
    joints = {"hip": hip, "knee": knee, "shoulder": shoulder, "elbow": elbow}
    assert set(joints) < set(get_args(Joint))
    position = Position(
        "p", "P", Fraction(trunk), {name: Fraction(angle) for name, angle in joints.items()}, "Words."
    )
    tree = svg(position)
    for joint, angle in joints.items():
        assert drawn_angle(tree, joint) == pytest.approx(abs(angle), abs=WITHIN)


def test_feet_lie_on_what_they_touch() -> None:
    """Where no angle of the ankle is stated, the sole follows the floor or the wall."""
    for trunk, hip, knee, support in ((180, 50, 100, "floor"), (180, 60, 60, "wall"), (90, 100, 80, "floor")):
        joints = {"hip": Fraction(hip), "knee": Fraction(knee)}
        position = Position("p", "P", Fraction(trunk), joints, "Words.", rests_on={support: ("foot",)})
        to = pose(position).directions["foot"]
        assert apart(to, 0 if support == "floor" else 90) < WITHIN or apart(to, 180) < WITHIN


@pytest.mark.parametrize("position", ["standing", "seated"], indirect=True)
def test_from_the_front_both_sides_are_alike(position: Position) -> None:
    tree = etree.fromstring(str(draw_front(ENGLISH, position)))
    for part in ("upper_arm", "forearm", "shank"):
        one, other = [points(path) for path in tree.xpath(f"//path[@class='limb {part}']/@d")]
        xs = sorted(round(x, 1) for x, _ in one), sorted(round(-x, 1) for x, _ in other)
        assert xs[0] == pytest.approx(xs[1], abs=0.21), part


@given(st.integers(50, 150))
def test_the_angle_below_the_ribs_is_the_stated_one(angle: int) -> None:
    tree = etree.fromstring(str(draw_ribs(angle, "Ribs", "Words.")))
    left, right = (points(path) for path in tree.xpath("//path[@class='edge']/@d"))
    assert left[0] == right[0]
    assert apart(direction(*left), direction(*right)) == pytest.approx(angle, abs=WITHIN)
