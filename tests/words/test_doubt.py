"""How sure a decision is, in words."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from builder.course import About, ChoiceScale, Course, Measure, NumberScale, Outcome, Rule, Table, YesNoScale
from builder.words import ENGLISH, doubt

COURSE = Course(
    About("c", "C"),
    {
        "bend": Measure("bend", "Bend", NumberScale("deg", F(0), F(50), F(1), F(2))),
        "pain": Measure("pain", "Pain", YesNoScale()),
        "stance": Measure(
            "stance", "Stance", ChoiceScale({"a": "Narrow", "b": "Hip", "c": "Wide", "d": "Odd"})
        ),
    },
    tables={
        "t": Table("t", "T?", "first", ("bend",), {"free": Outcome("free", "Free")}, (Rule("r", {}, "free"),))
    },
)


@pytest.mark.parametrize(
    ("chance", "said"),
    [
        (1.0, "more than 99 of 100"),
        (0.9999, "more than 99 of 100"),
        (0.995, "more than 99 of 100"),
        (0.9949, "about 99 of 100"),
        (0.614, "about 61 of 100"),
        (0.615, "about 62 of 100"),
        (0.005, "about 1 of 100"),
        (0.0049, "fewer than 1 of 100"),
        (0.0, "fewer than 1 of 100"),
    ],
)
def test_a_share_is_never_all_nor_none(chance: float, said: str) -> None:
    assert doubt.share(ENGLISH, chance) == said


def test_the_sentence_is_that_of_the_course_format() -> None:
    assert doubt.sure(ENGLISH, 0.93) == (
        "If reading error were the only doubt, about 93 of 100 clients with these readings would be on this "
        "side of the lines; it does not say that the choice suits them."
    )


@pytest.mark.parametrize(
    ("source", "said"),
    [
        ("common-practice", "Error of one reading 2.5 cm, assumed: no published source."),
        ("from-memory", "Error of one reading 2.5 cm, assumed from memory: no published source was read."),
        (None, "Error of one reading 2.5 cm: no source is named."),
        ("weir-2005", ""),
    ],
)
def test_an_assumed_error_is_called_assumed(source: str | None, said: str) -> None:
    scale = NumberScale("cm", F(0), F(50), F(1), F(5, 2), sem_source=source)
    assert doubt.assumed(ENGLISH, scale) == said


def test_a_band_is_told_to_one_place_more_than_readings_have() -> None:
    for step, said in [(F(1), "12.3 to 18.7 cm"), (F(1, 2), "12.35 to 18.65 cm"), (F(5), "12.3 to 18.7 cm")]:
        scale = NumberScale("cm", F(0), F(50), step, F(2))
        assert f"({said})" in doubt.likely(ENGLISH, scale, 12.3456, 18.6544)


def test_a_change_in_words() -> None:
    ways = {"bend": (F(32), (F(35),)), "stance": ("a", ("b", "c", "d"))}
    assert doubt.change(ENGLISH, COURSE, "t", "free", ways) == (
        "Bend: 35° instead of 32°; and Stance: “Hip”, “Wide” or “Odd” instead of “Narrow”. "
        "That would lead to: Free"
    )


def test_many_answers_that_lead_elsewhere_are_told_by_one_of_them() -> None:
    ways = {"stance": ("a", ("b", "c", "d"))}
    assert doubt.change(ENGLISH, COURSE, "t", "free", ways, most=2) == (
        "another answer to “Stance”, such as “Hip”. That would lead to: Free"
    )
    assert doubt.change(ENGLISH, COURSE, "t", "free", ways, most=3) == (
        "Stance: “Hip”, “Wide” or “Odd” instead of “Narrow”. That would lead to: Free"
    )


def test_differences_between_tests() -> None:
    def said(change: int, *, differs: bool, error: float = 1.5) -> str:
        return doubt.difference(ENGLISH, F(change), "deg", differs=differs, error=error)

    assert said(15, differs=True) == "15° more: more than measurement error."
    assert said(-3, differs=False) == "3° less: could be measurement error alone."
    assert said(0, differs=False) == "No difference."
    assert said(1, differs=True, error=0) == (
        "1° more. No error is stated for this number, so any difference counts."
    )
