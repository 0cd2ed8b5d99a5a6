"""Contact time: published worked examples, rounding as bodies do it, and what a course may claim."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.answers import Answers
from builder.checks.contact_time import Amounts, amounts, estimate, mergener, rounded, units
from builder.checks.registry import CHECKS
from builder.checks.scope import Scope
from builder.course import ContactTime
from builder.site import Site
from builder.site.pages import about
from builder.source import load

ANKLE = Path(__file__).parents[1] / "courses" / "ankle"


@pytest.mark.parametrize(
    ("words", "questions", "difficulty", "minutes"),
    [
        # A perioperative nurses' association, contact hour calculation sheet, printed example (secondary).
        (3774, 16, "2.5", 61.935894),
        # Mergener 1991, further points, computed.
        (5000, 20, "3", 81.225),
        (1000, 5, "1", 8.271),
        # -5.9319 by the formula: a short text takes no time rather than less than none.
        (100, 0, "1", 0),
    ],
)
def test_the_formula_gives_the_printed_example(
    words: int, questions: int, difficulty: str, minutes: float
) -> None:
    assert float(mergener(words, questions, Fraction(difficulty))) == pytest.approx(minutes, abs=1e-6)


def test_the_printed_example_is_one_hour_rounded_down() -> None:
    assert rounded(mergener(3774, 16, Fraction("2.5")), "whole_hour") == 1


@pytest.mark.parametrize(
    ("minutes", "ceu"),
    # ANSI/IACET 1-2018: 17 hours 1.7, 3 hours 0.3, 30 minutes 0.1, 17.8 hours 1.8, below 30 minutes none.
    [(17 * 60, "1.7"), (3 * 60, "0.3"), (30, "0.1"), (Fraction(178, 10) * 60, "1.8"), (29, "0"), (0, "0")],
)
def test_units_are_rounded_as_the_standard_says(minutes: Fraction, ceu: str) -> None:
    assert units(Fraction(minutes)) == Fraction(ceu)


@pytest.mark.parametrize(
    ("minutes", "rounding", "hours"),
    [
        (52, "quarter_hour", "0.75"),
        (Fraction(105, 2), "quarter_hour", "1"),  # 52.5 minutes lie half way: up
        (119, "whole_hour", "1"),
        (95, "tenth_unit", "2"),
        (89, "tenth_unit", "1"),
        (90, "none", "1.5"),
    ],
)
def test_each_body_rounds_in_its_own_way(minutes: Fraction, rounding: str, hours: str) -> None:
    """An athletic training board: to the nearest quarter hour; perioperative nurses: down to the hour;
    ANSI/IACET: to the nearest tenth of ten hours."""
    assert rounded(Fraction(minutes), rounding) == Fraction(hours)


def test_words_are_read_at_the_published_rate() -> None:
    """Brysbaert 2019: 238 words a minute; 5,000 words take 21.008403 minutes."""
    found = estimate(Amounts(5000, 0, 0), ContactTime())
    assert float(found.reading) == pytest.approx(21.008403, abs=1e-6)
    more = estimate(Amounts(5000, 10, 3), ContactTime(minutes_per_question=Fraction(2)))
    assert more.by_time == found.reading + 20 + 12


@given(st.integers(0, 10**6), st.integers(0, 500), st.integers(1, 5), st.integers(0, 1000))
def test_more_never_takes_less(words: int, questions: int, difficulty: int, more: int) -> None:
    level = Fraction(difficulty)
    assert 0 <= mergener(words, questions, level) <= mergener(words + more, questions, level)
    assert mergener(words, questions, level) <= mergener(words, questions + more, level)
    settings = ContactTime()
    small = estimate(Amounts(words, questions, 1), settings)
    assert small.by_time <= estimate(Amounts(words + more, questions, 1), settings).by_time


def test_what_is_counted_is_what_a_learner_meets() -> None:
    loaded = load(ANKLE)
    answers = Answers(loaded.course)
    nothing, something = amounts(answers, ()), amounts(answers, ["# Title\n\nFive words are in here."])
    assert something.words == nothing.words + 6
    assert nothing.questions == sum(map(len, (answers.first_draws[name] for name in loaded.course.quizzes)))
    assert nothing.exercises == sum(len(answers.exercises_of(name)) for name in loaded.course.cases)
    few = replace(loaded.course, about=replace(loaded.course.about, contact_time=ContactTime(exercises=1)))
    assert amounts(Answers(few), ()).exercises == 1


def claims(hours: str, **settings: object) -> list[str]:
    loaded = load(ANKLE)
    made = replace(
        loaded.course.about,
        hours=Fraction(hours),
        contact_time=ContactTime(**settings) if settings else None,  # type: ignore[arg-type]
    )
    scope = Scope(Answers(replace(loaded.course, about=made)), texts=loaded.texts)
    return [fault.message for fault in CHECKS["hours-claimed"](scope)]


def test_more_than_both_ways_come_to_is_told() -> None:
    loaded = load(ANKLE)
    lessons = [loaded.texts[one.file] for one in loaded.course.lessons]
    found = estimate(amounts(Answers(loaded.course), lessons), ContactTime())
    most = rounded(found.longer, "quarter_hour")
    assert claims(str(most), rounding="quarter_hour") == []
    assert len(claims(str(most + Fraction(1, 4)), rounding="quarter_hour")) == 1
    assert claims("100") == [], "nothing is worked out where the course does not ask for it"


def body(**more: object) -> str:
    loaded = load(ANKLE)
    course = replace(loaded.course, about=replace(loaded.course.about, **more))  # type: ignore[arg-type]
    (page,) = about.pages(Site(Answers(course), loaded.texts))
    return page.body


def test_about_prints_units_only_by_a_named_accreditation_and_hours_with_their_rule() -> None:
    tenth = ContactTime(rounding="tenth_unit")
    assert "not computed" in body(hours=Fraction(3))
    plain = body(hours=Fraction(3), contact_time=tenth)
    assert "units of ten contact hours" not in plain
    assert "(ANSI/IACET 1-2018)" in plain
    assert "That is 0.3 units of ten contact hours" in body(
        hours=Fraction(3), contact_time=tenth, accreditation="An invented body"
    )
    assert "nearest quarter of an hour" in body(
        hours=Fraction(3), contact_time=ContactTime(rounding="quarter_hour")
    )
    assert "Mergener 1991" in plain
