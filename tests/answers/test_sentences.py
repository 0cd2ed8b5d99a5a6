"""What pages and `explain` say after the answer."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import pytest

from builder.answers import Answers
from builder.answers.sentences import Sure, sure_of
from builder.course import Course, Measure, NumberScale
from builder.decide.doubt import QUANTILE, chance, chances, likely
from builder.decide.found import find
from builder.decide.space import Space
from builder.source import load


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
        for table, among in chances(space, found).items():
            assert chance(space, found, table) == among


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
