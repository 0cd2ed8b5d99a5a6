"""Questions that are computed from a drill."""

from __future__ import annotations

import importlib
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.answers import Answers
from builder.course import About, Correction, Course, Drill, DrillFault, Phase
from builder.questions import Item
from builder.questions.corrections import asked, folded
from builder.questions.families import DRILL_FAMILIES
from builder.source import load


@pytest.fixture
def course(drill_course: Path) -> Course:
    loaded = load(drill_course)
    assert loaded.problems == ()
    return loaded.course


def items(course: Course, family: str) -> dict[str, Item]:
    return {item.id: item for item in Answers(course).bank if item.family == family}


def key_text(item: Item) -> str:
    return next(option.text for option in item.options if option.id == item.key)


@pytest.mark.parametrize("name", DRILL_FAMILIES)
def test_a_family_is_documented_by_an_example_that_works(name: str, course: Course) -> None:
    page = importlib.import_module(f"builder.questions.families.{name}").__doc__
    assert page
    assert f"family: {name}" in page
    assert any(item.drill and item.family == f"g-{name}" for item in Answers(course).bank)


def test_a_sign_asks_for_the_first_correction(course: Course) -> None:
    found = items(course, "g-fault")
    faults = "presses_first side_hurts belly_pushes pelvis_stays braces_out neck_works"
    assert list(found) == [f"g-fault.{fault}" for fault in faults.split()]
    item = found["g-fault.belly_pushes"]
    assert item.stem == (
        "On the side, feet on the wall. Tip the pelvis back: The belly pushes out and turns hard. "
        "What do you do first?"
    )
    assert key_text(item) == "Half of it, as slowly as you like"
    assert "Likely cause: Too much effort" in item.why
    assert "If that does not help: First the opposite" in item.why
    assert "When to stop: The belly still pushes out" in item.why
    assert (item.kind, item.objective, item.drill, item.case) == ("one", "coach-breath", "wall_side", None)
    assert len(item.options) == 4
    assert all(option.why for option in item.options if option.id != item.key)


def test_no_wrong_option_would_be_right_as_well(course: Course) -> None:
    drill = course.drills["wall_side"]
    stopping = "Leave the side and rest; then another position that the cautions allow"
    for one in asked(course, drill):
        own = {correction.say for correction in one.fault.corrections}
        wrong = {correction.say for correction, _ in one.wrong}
        assert not wrong & own
        assert stopping not in wrong, "stopping is never wrong"
        assert len(wrong) == 3


def test_a_shared_correction_is_no_wrong_option_for_either_fault(course: Course) -> None:
    """The opposite first: right for a pelvis that stays, second for a belly that pushes."""
    shared = "First the opposite: a small hollow, then the way back"
    for fault in ("belly_pushes", "pelvis_stays"):
        item = items(course, "g-fault")[f"g-fault.{fault}"]
        assert shared not in {option.text for option in item.options if option.id != item.key}


def test_where_the_sign_says_stop_going_on_is_offered_and_wrong(course: Course) -> None:
    item = items(course, "g-fault")["g-fault.side_hurts"]
    whys = {option.text: option.why for option in item.options}
    assert whys["Carry on to the last breath, and watch it"] == "This sign says stop."
    assert key_text(item).startswith("Leave the side and rest")


def test_the_phases_in_order(course: Course) -> None:
    [item] = items(course, "g-sequence").values()
    text = {option.id: option.text for option in item.options}
    assert item.kind == "order"
    assert [text[one] for one in item.key] == [phase.label for phase in course.drills["wall_side"].phases]
    assert [option.id for option in item.options] != list(item.key)
    assert "1. Set up: " in item.why


def test_too_short_a_drill_asks_for_no_order(course: Course) -> None:
    drill = course.drills["slow_squat"]
    for phases in (drill.phases[:2], (*drill.phases, drill.phases[0])):
        spoiled = replace(course, drills={**course.drills, "slow_squat": replace(drill, phases=phases)})
        assert items(spoiled, "g-squat") == {}


says = st.sampled_from(["Slower", "slower.", "Softer", "Higher", "Lower", "Stop", "Rest", "  softer "])
faults = st.builds(
    lambda number, sign, corrections, stop: DrillFault(
        f"f{number}", sign, "Why", tuple(Correction(say) for say in corrections), stop
    ),
    st.integers(0, 9),
    st.sampled_from(["It lifts", "It sinks", "It shakes", "it  lifts."]),
    st.lists(says, min_size=1, max_size=3),
    st.booleans(),
)


@given(st.lists(st.lists(faults, max_size=4), min_size=1, max_size=3))
def test_laws_of_wrong_corrections(drills: list[list[DrillFault]]) -> None:
    made = {
        f"d{number}": Drill(f"d{number}", "D", ("Pain",), (Phase("p", "P", ("Cue",), faults=tuple(some)),))
        for number, some in enumerate(drills)
    }
    course = Course(About("c", "C"), drills=made)
    every = [fault for some in drills for fault in some]
    for drill in made.values():
        for one in asked(course, drill):
            wrong = [folded(correction.say) for correction, _ in one.wrong]
            assert len(set(wrong)) == len(wrong) <= 3
            right = {
                folded(correction.say)
                for fault in every
                if fault.stop or folded(fault.sign) == folded(one.fault.sign)
                for correction in fault.corrections
            }
            assert not right & set(wrong)
            assert asked(course, drill) == asked(course, drill)
