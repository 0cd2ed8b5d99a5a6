"""What is seen of a trunk: changed evenly, told in words, and moved alike in Python and in the browser."""

from __future__ import annotations

import json
import math
import re
from dataclasses import fields, replace
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree

from builder.course import AT_REST, TERMS, Breath
from builder.site.figures.breathing import FAST, QUIET_CYCLE, Cycle, cycle_of, fullness, moments, trunk_at
from builder.site.figures.outline import smooth
from builder.site.figures.seen import draw_seen, layers, motion, stills, told
from builder.site.figures.trunk import BAND, DOME, FLOOR, PELVIS, QUIET, RIBS, SHIRT, Trunk, outline
from builder.source import load
from builder.words import ENGLISH

from ..node import run_node_tests

DEMO = Path(__file__).parents[2] / "course_src"
NAMES = [one.name for one in fields(Trunk)]
OUTLINES = (SHIRT, RIBS, PELVIS, BAND, DOME, FLOOR)
NUMBERS = st.builds(Trunk, **dict.fromkeys(NAMES, st.floats(-1, 1.2)))
VALUES = [(term, value) for term, values in TERMS.items() for value in values]


def points(now: Trunk) -> list[tuple[float, float]]:
    return [one for rows in OUTLINES for one in outline(rows, now, (0, 0), 90 + now.tilt)]


@given(NUMBERS, st.sampled_from(NAMES), st.floats(0.01, 0.5))
def test_more_of_a_number_moves_every_point_on_the_same_way_and_as_far(
    now: Trunk, name: str, more: float
) -> None:
    """Monotone and continuous: each point goes in a straight line, in proportion to the number."""
    if name == "tilt":
        return
    here = points(now)
    once = points(replace(now, **{name: getattr(now, name) + more}))
    twice = points(replace(now, **{name: getattr(now, name) + 2 * more}))
    for a, b, c in zip(here, once, twice, strict=True):
        assert (c[0] - b[0], c[1] - b[1]) == pytest.approx((b[0] - a[0], b[1] - a[1]), abs=1e-9)
        assert math.dist(a, b) <= 13 * more


@given(st.floats(-20, 20))
def test_the_pelvis_turns_by_its_tilt(tilt: float) -> None:
    level, turned = outline(PELVIS, QUIET, (0, 0), 90), outline(PELVIS, QUIET, (0, 0), 90 + tilt)
    for (x, y), (u, v) in zip(level, turned, strict=True):
        assert math.hypot(x, y) == pytest.approx(math.hypot(u, v))
        way = math.degrees(math.atan2(v, u) - math.atan2(y, x))
        assert (way - tilt + 180) % 360 - 180 == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize(("term", "value"), VALUES)
def test_lungs_that_fill_move_the_trunk_one_way(term: str, value: str) -> None:
    look = {**AT_REST, term: (value,)}
    for name in NAMES:
        steps = [getattr(trunk_at(look, share / 10), name) for share in range(11)]
        assert steps in (sorted(steps), sorted(steps, reverse=True)), name
        assert max(b - a for a, b in pairwise(steps)) < 0.2, "evenly"


CYCLES = st.builds(Cycle, st.floats(1, 8), st.floats(0.1, 2), st.floats(0.8, 5))


@given(CYCLES, st.booleans())
def test_a_breath_goes_from_full_to_empty_and_back_without_a_jump(cycle: Cycle, stops: bool) -> None:
    times = [cycle.length * number / 400 for number in range(401)]
    full = [fullness(cycle, one, stops) for one in times[:-1]]
    assert (full[0], min(full)) == (1, pytest.approx(0, abs=1e-3))
    assert all(0 <= one <= 1 for one in full)
    assert max(abs(a - b) for a, b in pairwise(full)) < 0.1
    out = [one for one, at in zip(full, times, strict=False) if at <= cycle.out]
    assert out == sorted(out, reverse=True), "never in while it goes out"


def test_real_seconds() -> None:
    breath = Breath(out=6, into=3, pause=0, breaths=3)  # type: ignore[arg-type]
    assert cycle_of(AT_REST, breath) == Cycle(6, 0.5, 3)
    assert cycle_of(AT_REST, None) == QUIET_CYCLE
    assert cycle_of({**AT_REST, "breath": ("fast",)}, breath) == FAST
    assert motion(AT_REST, breath)["cycle"] == [6, 0.5, 3]


@pytest.mark.parametrize(("term", "value"), VALUES)
def test_every_value_but_rest_is_seen_or_told_by_movement(term: str, value: str) -> None:
    """In some still picture, or in the way it moves, it differs from a trunk at rest."""
    if AT_REST[term] == (value,):
        return
    position = load(DEMO).course.positions["standing"]
    look = {**AT_REST, term: (value,)}
    pictures = [str(picture) for _, picture in stills(ENGLISH, position, look)]
    rest = [str(picture) for _, picture in stills(ENGLISH, position, AT_REST)]
    assert pictures != rest or motion(look, None) != motion(AT_REST, None)
    assert told(ENGLISH, look) != told(ENGLISH, AT_REST)


def test_words_tell_what_is_seen_and_name_no_fault() -> None:
    course = load(DEMO).course
    for drill in course.drills.values():
        for phase in drill.phases:
            for fault in phase.faults:
                if fault.shows:
                    words = told(ENGLISH, {**AT_REST, **phase.looks, **fault.shows})
                    assert words
                    assert fault.sign not in words
                    assert fault.cause not in words


@pytest.mark.parametrize("name", load(DEMO).course.positions)
def test_a_picture_holds_its_trunk_in_every_position(name: str) -> None:
    """Whatever moves stays within the picture, and everything that it uses stands in the layers."""
    position = load(DEMO).course.positions[name]
    there = set(etree.fromstring(str(layers(position))).xpath("//g/@id"))
    for term, value in VALUES:
        look = {**AT_REST, term: (value,)}
        for moment in moments(look):
            tree = etree.fromstring(str(draw_seen(ENGLISH, position, look, moment)))
            assert {one[1:] for one in tree.xpath("//use/@href")} <= there
            _, _, width, height = (float(one) for one in tree.get("viewBox").split())
            shift = [float(one) for one in re.findall(r"-?[0-9.]+", tree.find("g").get("transform"))]
            numbers = re.findall(r"-?[0-9.]+", tree.xpath("//path[@class='shirt trunk']/@d")[0])
            for x, y in zip(numbers[::2], numbers[1::2], strict=True):
                assert 0 <= float(x) + shift[0] <= width
                assert 0 <= float(y) + shift[1] <= height


def test_the_browser_moves_it_alike(tmp_path: Path) -> None:
    cases = []
    for cycle in (QUIET_CYCLE, FAST, Cycle(6, 0.5, 3)):
        for stops in (False, True):
            times = [cycle.length * number / 23 for number in range(24)]
            cases.append(
                {
                    "cycle": [cycle.out, cycle.rest, cycle.into],
                    "stops": stops,
                    "full": [[one, fullness(cycle, one, stops)] for one in times],
                }
            )
    ways = []
    for full in (0.0, 0.25, 1.0):
        for rows, closed in ((SHIRT, True), (RIBS, False)):
            now = outline(rows, trunk_at(AT_REST, full), (0, 0), 90)
            flat = [round(value, 1) for x, y in now for value in (x, -y)]
            rounded = [(x, -y) for x, y in zip(flat[::2], flat[1::2], strict=True)]
            ways.append({"points": flat, "closed": closed, "way": smooth(rounded, closed)})
    (tmp_path / "cases.json").write_text(json.dumps({"cycles": cases, "ways": ways}), "utf-8")
    run_node_tests(Path(__file__).parent / "breathing.test.js", 3, CASES=str(tmp_path / "cases.json"))
