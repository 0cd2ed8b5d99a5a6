"""Questions that ask for the number in a drawing."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.answers import Answers
from builder.course import Case, Client, Course, Drawn, Family, Measure, NumberScale, Reading
from builder.questions import Item
from builder.questions.families import FAMILIES
from builder.questions.figures import ReadingFigure
from builder.questions.marking import mark
from builder.source import load

from ..conftest import ANKLE
from ..decide.courses import band, course, number, read, table

DIAL = Drawn("dial")


def drawn(measure: Measure, how: Drawn | None = DIAL, **fields: object) -> Measure:
    scale = replace(measure.scale, drawn=how, **fields)  # type: ignore[type-var, arg-type]
    return replace(measure, scale=scale)


@pytest.fixture
def ankle() -> Course:
    """The small course, in which the ankle is drawn."""
    made = load(ANKLE).course
    return with_measure(made, drawn(made.measures["ankle_dorsiflexion"]))


def with_measure(made: Course, measure: Measure) -> Course:
    return replace(made, measures={**made.measures, measure.name: measure})


def family(within: str | None, measure: str) -> Family:
    near = None if within is None else Fraction(within)
    return Family("g", "read_off", "", "all", "o", measure=measure, within=near)


def asked(made: Course, within: str | None = None, measure: str = "ankle_dorsiflexion") -> dict[str, Item]:
    asks = replace(made, questions={"g": family(within, measure)})
    return {item.case or "": item for item in Answers(asks).bank}


def test_everybody_is_asked_about_once_of_whom_it_was_measured(ankle: Course) -> None:
    items = asked(ankle)
    assert set(items) == {name for name, case in ankle.cases.items() if "ankle_dorsiflexion" in case.readings}
    assert "rail-06" not in items
    for name, item in items.items():
        first = ankle.cases[name].readings["ankle_dorsiflexion"].trials[0]
        assert item.figure == ReadingFigure("ankle_dorsiflexion", first)
        assert (item.id, item.kind, item.options) == (f"g.{name}", "number", ())
        assert (item.learnt, item.unit, item.table) == ("reading:ankle_dorsiflexion", "deg", None)
        assert item.marked
    tern = items["tern-03"]
    assert tern.stem == "Tern: read “Knee-to-wall dorsiflexion” off the drawing. What number does it show?"
    # 1.96 * 2.0 (Weir, J Strength Cond Res 2005;19(1):231-240: 95 of 100 trials lie within 1.96 errors).
    assert tern.why == "It shows 31°. Whatever is no more than 3.92° away counts as right."
    assert tern.key == (31, Fraction("3.92"))
    assert tern.asks == "What number does the drawing show for “Knee-to-wall dorsiflexion”?"


@pytest.mark.parametrize(
    ("typed", "right"),
    [("31", 1), ("34.92", 1), ("27,08", 1), ("34.93", 0), ("27.07", 0), ("", 0), ("31°", 0)],
)
def test_right_is_what_is_near_enough(ankle: Course, typed: str, right: int) -> None:
    assert mark(asked(ankle)["tern-03"], typed) == right


@pytest.mark.parametrize(
    ("sem", "step", "of", "within", "near"),
    [
        ("0", "1", "trial", None, "1"),
        ("0.5", "1", "trial", None, "1"),
        ("0.5", "0.5", "trial", None, "0.98"),
        ("2", "1", "session", None, "3.92"),
        ("2", "1", "trial", "7", "7"),
        ("2", "1", "trial", "0", "0"),
    ],
)
def test_how_near_follows_from_the_error_of_one_trial(
    ankle: Course, sem: str, step: str, of: str, within: str | None, near: str
) -> None:
    """Averaging shrinks the error of the mean, and one trial is drawn."""
    measure = drawn(ankle.measures["ankle_dorsiflexion"], sem=Fraction(sem), step=Fraction(step), sem_of=of)
    items = asked(with_measure(ankle, measure), within)
    assert {item.key[1] for item in items.values()} == {Fraction(near)}


def test_what_is_not_drawn_is_not_asked_about(ankle: Course) -> None:
    measure = ankle.measures["ankle_dorsiflexion"]
    assert asked(with_measure(ankle, drawn(measure, None))) == {}
    assert asked(ankle, measure="heel_pain") == {}
    assert asked(ankle, measure="nothing") == {}
    rail = Answers(ankle).clients["rail-06"].facts
    assert not FAMILIES["read_off"].holds(family(None, measure.name), rail, Fraction(31))


def test_the_question_never_tells_the_number(ankle: Course) -> None:
    """Tern's first trial is 31."""
    measure = ankle.measures["ankle_dorsiflexion"]
    for label, tells in (("Angle at 31", True), ("31,0 and up", True), ("No 310", False), ("1 to 3", False)):
        items = asked(with_measure(ankle, replace(measure, label=label)))
        assert ("tern-03" not in items) == tells
        assert "crake-07" in items


def test_a_question_is_another_one_once_its_drawing_is(drill_course: Path) -> None:
    made = load(drill_course).course
    measure = made.measures["ankle_dorsiflexion"]
    joint = Drawn("joint", "standing", "knee")

    def digest(how: Drawn, of: Course = made, **fields: object) -> str:
        return asked(with_measure(of, drawn(measure, how, **fields)))["tern-03"].digest

    standing = replace(made.positions["standing"], trunk=Fraction(80))
    leaning = replace(made, positions={**made.positions, "standing": standing})
    told = [
        digest(DIAL),
        digest(DIAL, stop=Fraction(70)),
        digest(Drawn("ribs")),
        digest(joint),
        digest(replace(joint, joint="hip")),
        digest(replace(joint, position="seated")),
        digest(joint, leaning),
    ]
    assert len(set(told)) == len(told)
    assert digest(DIAL) == told[0]


@given(
    st.integers(0, 4),
    st.integers(1, 3),
    st.sampled_from(["0", "0.4", "1", "2.5"]),
    st.sampled_from([None, "0", "1.5", "6"]),
    st.lists(st.integers(0, 20), min_size=1, max_size=4),
    st.sampled_from(["trial", "session"]),
    st.sampled_from(["Angle", "Angle 4", "2 by 9"]),
)
def test_an_estimate_holds_just_where_it_is_near_enough(
    start: int, step: int, sem: str, within: str | None, places: list[int], of: str, label: str
) -> None:
    """A referee that knows the reading and the scale alone marks every estimate alike."""
    measure = drawn(number("angle", start, start + 20 * step, step, unit="deg", sem=sem), sem_of=of)
    measure = replace(measure, label=label)
    assert isinstance(measure.scale, NumberScale)
    made = course(measure, table("t", "first", "angle", ("r", {"angle": band(at_least=0)}, "a")))
    trials = [start + step * place for place in places]
    made = replace(made, cases={"k": Case("k", Client("Wren"), read(angle=trials))})
    asks, about = family(within, "angle"), Answers(made).clients["k"].facts
    item = asked(made, within, "angle").get("k")
    told = {int(one) for one in re.findall("[0-9]+", label)}
    assert (item is None) == (trials[0] in told)
    if item is None:
        return
    assert str(trials[0]) not in re.findall("[0-9]+", item.stem)
    for quarter in range(-40, 41):
        estimate = trials[0] + quarter / 4
        away = abs(quarter) / 4
        near = away <= (max(step, 1.96 * float(sem)) if within is None else float(within)) + 1e-9
        assert mark(item, str(estimate)) == near
        assert FAMILIES["read_off"].holds(asks, about, Fraction(estimate)) == near


def test_a_reading_without_trials_is_passed_over(ankle: Course) -> None:
    tern = ankle.cases["tern-03"]
    odd = {**tern.readings, "ankle_dorsiflexion": Reading(finding="none")}
    made = replace(ankle, cases={"tern-03": replace(tern, readings=odd)})
    assert asked(made) == {}
