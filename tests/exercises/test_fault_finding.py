"""Walks through the faults of a drill."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from builder.course import Course
from builder.exercises import fault_walk, follow
from builder.source import load


@pytest.fixture
def course(drill_course: Path) -> Course:
    loaded = load(drill_course)
    assert loaded.problems == ()
    return loaded.course


def test_the_walk_shows_every_sign_in_order_and_then_the_stop_list(course: Course) -> None:
    walk = fault_walk(course, course.drills["wall_side"])
    assert walk is not None
    assert walk.best_path == (*(f"sign-{number}" for number in range(1, 7)), "stop", "done")
    assert set(walk.steps) == set(walk.best_path)
    steps = [walk.steps[name] for name in walk.best_path[:-1]]
    mark = follow(walk, [option.id for step in steps for option in step.options if option.best])
    assert (mark.mark, mark.serious, mark.done) == (1, False, True)
    assert mark.objectives == {"coach-breath": (7, 7)}


def test_carrying_on_at_a_sign_that_says_stop_is_serious_and_opens_its_caution(course: Course) -> None:
    walk = fault_walk(course, course.drills["wall_side"])
    assert walk is not None
    step = walk.steps["sign-2"]
    going_on = next(option for option in step.options if option.harm == "serious")
    assert going_on.text == "Carry on to the last breath, and watch it"
    assert going_on.go == "sign-2"
    assert going_on.cautions == ("heel_pain_loading",)
    first = next(option for option in walk.steps["sign-1"].options if option.best)
    mark = follow(walk, [first.id, going_on.id])
    assert mark.serious
    assert "heel_pain_loading" in mark.cautions
    at_the_end = next(option for option in walk.steps["stop"].options if option.harm == "serious")
    assert at_the_end.cautions == ("chest_pain", "heel_pain_loading")
    assert all(option.harm == "none" for option in walk.steps["sign-1"].options)


def test_a_wrong_correction_leaves_the_sign_as_it_is(course: Course) -> None:
    walk = fault_walk(course, course.drills["wall_side"])
    assert walk is not None
    for option in walk.steps["sign-3"].options:
        if not option.best:
            assert option.go == "sign-3"
            assert option.reply == "The sign stays: The belly pushes out and turns hard"


def test_a_drill_without_faults_has_no_walk(course: Course) -> None:
    drill = course.drills["slow_squat"]
    plain = replace(drill, phases=tuple(replace(phase, faults=()) for phase in drill.phases))
    assert fault_walk(course, plain) is None
