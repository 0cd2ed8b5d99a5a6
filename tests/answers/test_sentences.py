"""What pages and `explain` say after the answer."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import pytest

from builder.answers import Answers
from builder.answers.sentences import Sure, sure_of
from builder.course import AnyOf, Case, Client, Condition, Course, Is, Measure, NumberScale
from builder.decide.doubt import QUANTILE, Chance, chance, chances, likely
from builder.decide.found import find
from builder.decide.space import Space
from builder.source import load

from ..decide.courses import choice, course, read, table, yes_no


@pytest.fixture(scope="module")
def ankle() -> Course:
    return load(Path(__file__).parents[1] / "courses" / "ankle").course


def told(course: Course, case: str, table: str) -> Sure:
    found = sure_of(Answers(course), course.cases[case], table)
    assert found is not None
    return found


def with_scale(course: Course, **changes: object) -> Course:
    measure = course.measures["ankle_dorsiflexion"]
    assert isinstance(measure.scale, NumberScale)
    scale = replace(measure.scale, **changes)  # type: ignore[arg-type]
    return replace(course, measures={**course.measures, measure.name: Measure(measure.name, "Ankle", scale)})


def test_a_number_near_a_line(ankle: Course) -> None:
    found = told(ankle, "tern-03", "ankle_class")
    # 32 against a line at 34.5 with an error of 2 over three trials: Phi(2.165) = 0.985
    assert "about 98 of 100 clients" in found.said
    (error,) = found.errors
    assert error.said == "Knee-to-wall dorsiflexion: 3 trials, standard error 1.15°."
    assert error.origin == "Error of one reading 2°, assumed: no published source."
    # with four trials the standard error is 1: Phi(2.5) = 0.994
    assert error.one_more == (
        "One more trial would make it 1°. If the recorded value stayed the same, about 99 of 100 would then "
        "be on this side."
    )
    assert found.changes == ("Knee-to-wall dorsiflexion: 35° instead of 32°. That would lead to: Free",)
    assert found.first == found.changes[0]
    assert not found.near


def test_a_key_too_unsure_for_a_quiz_is_near(ankle: Course) -> None:
    assert told(ankle, "crake-07", "plan").near


def test_the_short_form_names_two_values_at_most(ankle: Course) -> None:
    two = told(ankle, "plover-04", "plan")
    assert two.first == two.changes[0]
    assert two.first.startswith("Preferred stance: “Hip width” or “Wide” instead of “Narrow”.")
    assert two.others == two.changes[1:]
    assert len(two.others) == 1


def colour(*rules: tuple[str, dict[str, Condition], str]) -> Sure:
    """Of a client whose choice is red, of five."""
    choices = choice("colour", "red", "blue", "green", "grey", "black")
    made = course(choices, yes_no("tired"), table("t", "first", "colour tired", *rules))
    red = Case("c", Client("C"), read(colour="red", tired=False))
    found = sure_of(Answers(made), red, "t")
    assert found is not None
    return found


RED = ("red", {"colour": AnyOf(("red",)), "tired": Is(False)}, "stop")


def test_of_more_values_the_short_form_gives_one() -> None:
    grey = ("grey", {"colour": AnyOf(("grey",))}, "wait")
    found = colour(RED, grey, ("rest", {"colour": AnyOf(("blue", "green", "black"))}, "go"))
    stop, wait = found.changes
    assert stop == "Colour: “Black”, “Blue” or “Green” instead of “Red”. That would lead to: Go"
    assert wait == "Colour: “Grey” instead of “Red”. That would lead to: Wait"
    assert found.first == "another answer to “Colour”, such as “Black”. That would lead to: Go"
    assert found.others == found.changes, "the first is not told in full by its short form"


def test_one_of_several_readings_may_have_more_values() -> None:
    others = {"colour": AnyOf(("blue", "green", "black")), "tired": Is(True)}
    found = colour(("both", others, "go"), ("rest", {}, "stop"))
    assert found.changes == (
        "Colour: “Black”, “Blue” or “Green” instead of “Red”; and Tired: yes instead of no. "
        "That would lead to: Go",
    )
    assert found.first == (
        "another answer to “Colour”, such as “Black”; and Tired: yes instead of no. That would lead to: Go"
    )


def test_nothing_else_would_have_changed_it() -> None:
    found = colour(("all", {}, "go"))
    assert (found.changes, found.first, found.others) == ((), "", ())
    assert not found.near


def test_a_table_that_is_too_large_says_so(ankle: Course, monkeypatch: pytest.MonkeyPatch) -> None:
    answers = Answers(ankle)
    case = ankle.cases["crake-07"]
    unknown = Chance({"raise_heels": 0.0, "deep_squat": 0.0}, 1.0)
    monkeypatch.setitem(vars(answers.of(case)), "chances", {"plan": unknown})
    found = sure_of(answers, case, "plan")
    assert found is not None
    assert (found.near, found.errors) == (False, ())
    assert found.said.startswith("Too many readings")


def test_nothing_is_said_where_nothing_is_decided(ankle: Course) -> None:
    assert sure_of(Answers(ankle), ankle.cases["rail-06"], "ankle_class") is None


def test_choices_and_answers_carry_no_error(ankle: Course) -> None:
    found = told(ankle, "tern-03", "screen")
    assert found.said == "No reading error counts here. That does not say that the choice suits this client."
    assert found.errors == ()
    assert found.changes == ("Pain at the heel when loading: yes instead of no. That would lead to: Send on",)


def test_an_error_of_the_session_is_not_shrunk_by_trials(ankle: Course) -> None:
    (error,) = told(with_scale(ankle, sem_of="session"), "tern-03", "ankle_class").errors
    assert error.said == "Ankle: standard error 2°. More trials on one day do not make it smaller."
    assert error.one_more == ""


def test_a_number_without_error_counts_as_certain(ankle: Course) -> None:
    assert told(with_scale(ankle, sem=F(0)), "tern-03", "plan").said.startswith("No reading error counts")


def test_a_published_error_leads_to_its_source(ankle: Course) -> None:
    (error,) = told(with_scale(ankle, sem_source="invented-handout"), "tern-03", "plan").errors
    assert (error.origin, error.source) == ("Error of one reading 2°, after", "invented-handout")


def test_the_chance_of_one_table_is_that_among_all(ankle: Course) -> None:
    space = Space(ankle)
    for case in ankle.cases.values():
        found = find(ankle, case.readings)
        for name, among in chances(space, found).items():
            assert chance(space, found, name) == among


def test_the_band_holds_95_of_100_true_values() -> None:
    scale = NumberScale("cm", F(0), F(100), F(1), F(4))
    low, high = likely(scale, F(50), 4)
    assert (low, high) == (50 - 1.96 * 2, 50 + 1.96 * 2)
    inside = math.erf(float(QUANTILE) / math.sqrt(2))
    assert inside == pytest.approx(
        0.95, abs=1e-4
    )  # two-sided 95 %: 1.96, any table of the normal distribution
    assert likely(scale, F(0), 1)[0] == -0.5, "cut off at the end of the domain"
    assert likely(scale, F(100), 1)[1] == 100.5
