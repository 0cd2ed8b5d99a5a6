"""Walks through the faults of a drill."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from builder.course import About, Caution, Correction, Course, Drill, DrillCaution, DrillFault, Phase
from builder.exercises import WalkOption, fault_walk, follow
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


def made(stop_caution: str | None = "halt") -> tuple[Course, Drill]:
    """A drill of two signs, the second of which says stop, and cautions: two send on, one does not, one is
    not known."""
    lifts = DrillFault(
        "lifts", "The heels lift.", "Stiff", (Correction("Slower", "Better."), Correction("Wedge"))
    )
    hurts = DrillFault(
        "hurts", "It hurts", "Too much", (Correction("Stop and rest"),), stop=True, caution=stop_caution
    )
    drill = Drill(
        "squat",
        "Slow squat",
        ("Chest pain. ", " Dizziness"),
        (Phase("down", "Down", ("Sit",), faults=(lifts,)), Phase("up", "Up", ("Rise",), faults=(hurts,))),
        cautions=(DrillCaution("warm"), DrillCaution("halt"), DrillCaution("gone"), DrillCaution("call")),
        objectives=("coach", "other"),
    )
    cautions = [
        Caution("halt", "Halt", "refer", (), "Halt."),
        Caution("warm", "Warm", "adapt", (), "Warm."),
        Caution("call", "Call", "urgent", (), "Call."),
    ]
    course = Course(About("c", "C"), drills={"squat": drill}, cautions={one.name: one for one in cautions})
    return course, drill


def test_the_whole_walk_of_a_small_drill() -> None:
    walk = fault_walk(*made())
    assert walk is not None
    assert (walk.exercise, walk.case, walk.start) == ("drill.squat", "", "sign-1")
    assert walk.title == "Find the fault: Slow squat"
    assert walk.best_path == ("sign-1", "stop", "done"), "the other sign has no wrong answer besides going on"


def test_a_sign_with_neither_a_wrong_correction_nor_a_stop_is_passed_over() -> None:
    course, drill = made()
    walk = fault_walk(course, drill)
    assert walk is not None
    # The corrections of a sign that says stop are wrong nowhere, so nothing is wrong at the heels.
    assert walk.steps["sign-1"].prompt == "Up: It hurts. What do you do first?"
    shaking = DrillFault("shakes", "It shakes", "Tired", (Correction("Rest"),))
    phases = (replace(drill.phases[0], faults=(*drill.phases[0].faults, shaking)), drill.phases[1])
    more = replace(drill, phases=phases)
    walk = fault_walk(replace(course, drills={"squat": more}), more)
    assert walk is not None
    assert walk.best_path == ("sign-1", "sign-2", "sign-3", "stop", "done")
    first = walk.steps["sign-1"]
    assert (first.kind, first.prompt, first.objective) == (
        "ask",
        "Down: The heels lift. What do you do first?",
        "coach",
    )
    stays = "The sign stays: The heels lift."
    assert first.options == (
        WalkOption("a", "Slower", True, "sign-2", reply="Better."),
        WalkOption("b", "Rest", False, "sign-1", "none", stays),
    )
    second = walk.steps["sign-2"]
    assert [option.text for option in second.options if option.best] == ["Rest"]
    assert {option.go for option in second.options if not option.best} == {"sign-2"}
    assert {option.text for option in second.options if not option.best} == {"Slower", "Wedge"}


def test_at_a_sign_that_says_stop_all_else_harms() -> None:
    course, drill = made()
    tired = DrillFault("tired", "It shakes", "Tired", (Correction("Slower"),))
    drill = replace(drill, phases=(replace(drill.phases[0], faults=(tired,)), drill.phases[1]))
    walk = fault_walk(replace(course, drills={"squat": drill}), drill)
    assert walk is not None
    went_on = "This sign says stop, and the drill went on."
    assert walk.steps["sign-1"].options == (
        WalkOption("a", "Stop and rest", True, "stop"),
        WalkOption("b", "Slower", False, "sign-1", "minor", went_on),
        WalkOption(
            "c", "Carry on to the last breath, and watch it", False, "sign-1", "serious", went_on, ("halt",)
        ),
    )
    course, drill = made(stop_caution=None)
    walk = fault_walk(course, drill)
    assert walk is not None
    assert [option.cautions for option in walk.steps["sign-1"].options] == [()] * 4


def test_the_stop_list_ends_the_walk_and_opens_the_cautions_that_send_on() -> None:
    walk = fault_walk(*made())
    assert walk is not None
    stop = walk.steps["stop"]
    assert stop.prompt == "At any time in this drill: Chest pain; Dizziness. What do you do?"
    assert (stop.id, stop.kind, stop.objective) == ("stop", "ask", "coach")
    assert [(o.id, o.best, o.go, o.harm, o.cautions) for o in stop.options] == [
        ("a", True, "done", "none", ()),
        ("b", False, "stop", "minor", ()),
        ("c", False, "stop", "serious", ("halt", "call")),
    ]
    assert all(option.reply for option in stop.options)
    assert (walk.steps["done"].kind, walk.steps["done"].sends_on) == ("end", False)


def test_a_drill_without_an_objective_shows_none() -> None:
    course, drill = made()
    walk = fault_walk(course, replace(drill, objectives=()))
    assert walk is not None
    assert [step.objective for step in walk.steps.values()] == [None] * 3


def test_a_sign_that_says_stop_is_shown_even_where_going_on_is_all_that_is_wrong() -> None:
    course, drill = made()
    alone = replace(drill, phases=drill.phases[1:])
    walk = fault_walk(replace(course, drills={"squat": alone}), alone)
    assert walk is not None
    assert walk.best_path == ("sign-1", "stop", "done")
    assert [option.harm for option in walk.steps["sign-1"].options] == ["none", "serious"]
