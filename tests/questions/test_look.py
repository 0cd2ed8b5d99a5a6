"""Questions about what is seen in a drill, tried by a referee that shares no code with the family."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.answers import Answers
from builder.course import About, Correction, Course, Drill, DrillFault, Family, Look, Phase, Phrasing, seen
from builder.questions import Item
from builder.questions.corrections import folded
from builder.questions.figures import LookFigure
from builder.questions.marking import mark
from builder.source import load

NOTHING = "Nothing is off"


@pytest.fixture
def course(drill_course: Path) -> Course:
    loaded = load(drill_course)
    assert loaded.problems == ()
    return loaded.course


def looked(course: Course, drill: str = "wall_side") -> dict[str, Item]:
    asks = replace(course, questions={"g": Family("g", "look", "", (), "o", drill=drill)})
    return {item.id: item for item in Answers(asks).bank}


def held(item: Item) -> list[str]:
    return [option.text for option in item.options if mark(item, option.id) == 1]


def changed(course: Course, fault: str, **fields: object) -> Course:
    """The course with one fault of the drill written otherwise."""
    drill = course.drills["wall_side"]
    phases = tuple(
        replace(
            phase,
            faults=tuple(
                replace(one, **fields) if one.id == fault else one  # type: ignore[arg-type]
                for one in phase.faults
            ),
        )
        for phase in drill.phases
    )
    return replace(course, drills={**course.drills, drill.name: replace(drill, phases=phases)})


def test_each_fault_that_shows_something_is_asked_about_and_each_sound_phase(course: Course) -> None:
    items = looked(course)
    assert list(items) == [
        "g.presses_first",
        "g.sound.tilt",
        "g.belly_pushes",
        "g.pelvis_stays",
        "g.sound.breathe_out",
        "g.braces_out",
        "g.sound.breathe_in",
        "g.neck_works",
    ]
    item = items["g.belly_pushes"]
    assert item.stem == "On the side, feet on the wall. Tip the pelvis back: what do you see?"
    assert held(item) == ["The belly pushes out and turns hard"]
    assert item.figure == LookFigure("wall_side", "tilt", "belly_pushes")
    assert (item.learnt, item.drill, item.case) == ("fault:wall_side/belly_pushes", "wall_side", None)
    assert item.why == "Likely cause: Too much effort"
    whys = {option.text: option.why for option in item.options}
    assert whys[NOTHING] == "Something is off: The belly pushes out and turns hard"
    assert whys["The neck works"] == "This is not seen here."
    sound = items["g.sound.tilt"]
    assert held(sound) == [NOTHING]
    assert sound.figure == LookFigure("wall_side", "tilt", None)
    assert sound.learnt == "phase:wall_side/tilt"
    assert "The belly stays soft" in sound.why


def test_a_sign_that_is_to_be_seen_as_well_is_not_offered(course: Course) -> None:
    """Where the belly is hard and the ribs are level, both signs of the belly would be right. And where the
    pelvis is level since nobody has moved it yet, it does not move."""
    texts = {name: {option.text for option in item.options} for name, item in looked(course).items()}
    assert "The belly braces, and the ribs stay up" not in texts["g.belly_pushes"]
    assert "The belly braces, and the ribs stay up" in texts["g.pelvis_stays"]
    assert "The pelvis does not move at all" not in texts["g.sound.breathe_in"]
    assert "The pelvis does not move at all" in texts["g.sound.tilt"]


def test_what_is_said_and_not_drawn_is_neither_asked_about_nor_offered(course: Course) -> None:
    offered = {option.text for item in looked(course).values() for option in item.options}
    assert "The shoulder hurts on this side" not in offered
    assert len(offered) == 6


def test_signs_that_look_most_like_the_drawing_are_offered_first(course: Course) -> None:
    """Of five wrong ones four are offered, nothing being off among them."""

    def left_out(made: Course) -> set[str]:
        item = looked(made)["g.presses_first"]
        assert len(item.options) == 5
        assert NOTHING in {option.text for option in item.options}
        everything = {"The belly pushes out and turns hard", "The pelvis does not move at all"}
        everything |= {"The belly braces, and the ribs stay up", "The neck works"}
        return everything - {option.text for option in item.options}

    assert left_out(course) == {"The neck works"}, "both otherwise as much as what comes before it"
    nearer = {"pelvis": ("forward",), "neck": ("works",)}
    assert left_out(changed(course, "neck_works", shows=nearer)) == {"The belly braces, and the ribs stay up"}


def test_what_cannot_be_drawn_is_not_asked_about(course: Course) -> None:
    drill = course.drills["wall_side"]
    nowhere = {**course.drills, "wall_side": replace(drill, position=None)}
    assert looked(replace(course, drills=nowhere)) == {}
    assert looked(course, "slow_squat") == {}
    same = looked(changed(course, "pelvis_stays", shows={"pelvis": ("back",)}))
    assert "g.pelvis_stays" not in same
    assert "The pelvis does not move at all" not in {
        option.text for item in same.values() for option in item.options
    }


def test_the_question_never_tells_the_sign(course: Course) -> None:
    items = looked(changed(course, "belly_pushes", sign="tip the pelvis  back."))
    assert "g.belly_pushes" not in items
    assert "g.pelvis_stays" in items


def test_a_question_is_another_one_once_its_drawing_is(course: Course) -> None:
    """Also where the right answer stays: it was given to another drawing."""
    before = looked(course)["g.belly_pushes"]
    drill, position = course.drills["wall_side"], course.positions["side_lying"]
    moved = replace(
        course, positions={**course.positions, "side_lying": replace(position, trunk=position.trunk + 1)}
    )
    firmer = changed(course, "belly_pushes", shows={"belly": ("hard",), "legs": ("shake",)})
    sunk = replace(drill.phases[1], looks={"pelvis": ("back",), "ribs": ("down",)})
    lower = {**course.drills, "wall_side": replace(drill, phases=(drill.phases[0], sunk, *drill.phases[2:]))}
    for other in (moved, firmer, replace(course, drills=lower)):
        after = looked(other)["g.belly_pushes"]
        assert after.digest != before.digest
        assert after.key_digest == before.key_digest
    reworded = looked(changed(course, "belly_pushes", sign="The belly gets firm"))["g.belly_pushes"]
    assert reworded.key_digest == before.key_digest
    assert looked(course)["g.belly_pushes"] == before


def test_a_course_words_it_anew(course: Course) -> None:
    own = {
        name: Phrasing(name, text) for name, text in (("look-nothing", "All well"), ("look-other", "Not so"))
    }
    item = looked(replace(course, wording=own))["g.sound.tilt"]
    assert held(item) == ["All well"]
    assert {option.why for option in item.options} == {"", "Not so"}


# laws

REST = {
    "pelvis": "level",
    "ribs": "level",
    "belly": "soft",
    "neck": "quiet",
    "chest": "widens",
    "back": "long",
    "legs": "quiet",
    "breath": "slow",
}
"""As the description of `looks` in drill.schema.json says."""
USED = {"pelvis": ("back", "level", "forward"), "belly": ("soft", "out", "hard"), "neck": ("quiet", "works")}
"""A few terms are enough, so that looks often come out alike."""

values = {term: st.lists(st.sampled_from(some), min_size=1, unique=True) for term, some in USED.items()}
looks = st.fixed_dictionaries({}, optional=values).map(
    lambda said: {term: tuple(some) for term, some in said.items()}
)
signs = st.sampled_from(["It tips", "It sinks", "it  tips.", "It works", "It stays", "Go", "Nothing is off."])


@st.composite
def drills(draw: st.DrawFn) -> Drill:
    phases = []
    for number in range(draw(st.integers(1, 3))):
        faults = tuple(
            DrillFault(f"f{number}{place}", draw(signs), "Why", (Correction("Slower"),), shows=draw(looks))
            for place in range(draw(st.integers(0, 3)))
        )
        phases.append(Phase(f"p{number}", "Go down", ("Cue",), faults=faults, looks=draw(looks)))
    return Drill("d", "D", ("Pain",), tuple(phases), position="lying")


def picture(*said: Look) -> set[tuple[str, str]]:
    """Each value that is there, with its term: what is said later counts."""
    every: dict[str, tuple[str, ...]] = {term: (one,) for term, one in REST.items()}
    for look in said:
        every.update(look)
    return {(term, one) for term, some in every.items() for one in some}


def is_visible(drill: Drill, fault: str, there: set[tuple[str, str]]) -> bool:
    """Whether, term by term, what sets this fault apart from its own phase is in the picture."""
    phase, one = next((p, f) for p in drill.phases for f in p.faults if f.id == fault)
    good = picture(phase.looks)
    for term, some in one.shows.items():
        mine = {(term, value) for value in some}
        usual = {pair for pair in good if pair[0] == term}
        if mine != usual and not (mine - usual or mine) <= there:
            return False
    return True


@given(drills())
def test_every_question_has_one_right_option_and_asks_about_what_differs(drill: Drill) -> None:
    course = Course(About("c", "C"), drills={"d": drill})
    items = looked(course, "d")
    drawn = {fault.id: fault for phase in drill.phases for fault in phase.faults if fault.shows}
    asked = 0
    for phase in drill.phases:
        good = picture(phase.looks)
        for fault in (None, *phase.faults):
            item = items.get(f"g.{fault.id}" if fault else f"g.sound.{phase.id}")
            there = picture(phase.looks, fault.shows if fault else {})
            assert picture(seen(phase, fault)) == there
            if item is None:
                if fault is None:
                    offered = [one for one in drawn if not is_visible(drill, one, there)]
                    left = {folded(drawn[one].sign) for one in offered} - {folded(NOTHING)}
                    assert not phase.looks or not left
                else:
                    tells = folded(fault.sign) in (folded(NOTHING), "go")
                    assert not fault.shows or there == good or tells
                continue
            asked += 1
            assert bool(fault) == (there != good)
            assert item.figure == LookFigure("d", phase.id, fault.id if fault else None)
            texts = [folded(option.text) for option in item.options]
            assert len(set(texts)) == len(texts)
            assert 2 <= len(texts) <= 5
            assert folded(NOTHING) in texts
            assert held(item) == [fault.sign if fault else NOTHING]
            assert all(option.why for option in item.options if option.text not in held(item))
            for option in item.options:
                if option.text not in held(item) and option.text != NOTHING:
                    named = [one.id for one in drawn.values() if one.sign == option.text]
                    assert any(not is_visible(drill, one, there) for one in named)
            if len(texts) < 5:
                hidden = {folded(one.sign) for one in drawn.values() if not is_visible(drill, one.id, there)}
                assert set(texts) == hidden | {folded(NOTHING), folded(held(item)[0])}
            if fault is not None:
                assert is_visible(drill, fault.id, there)
                assert folded(fault.sign) not in folded(item.stem)
    assert asked == len(items)
