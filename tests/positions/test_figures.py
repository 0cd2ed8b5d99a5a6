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
    """Corners of a path of straight lines; the page's y points down."""
    numbers = [float(one) for one in re.findall(r"-?\d+(?:\.\d+)?", path)]
    return [(x, -y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]


def direction(start: tuple[float, float], end: tuple[float, float]) -> float:
    return math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))


def limb(tree, part: str) -> float:
    [path] = tree.xpath(f"//path[@class='limb {part}']/@d")
    start, end = points(path)
    return direction(start, end)


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
    for path in tree.xpath("//path[not(@class='arc')]/@d"):
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
