"""What a client's exercise must have asked, and what taking their words for another value would have done."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from builder.answers import Answers
from builder.source import load

DEMO = Path(__file__).parents[2] / "course_src"


@pytest.fixture(scope="module")
def demo() -> Answers:
    return Answers(load(DEMO).course)


def test_every_demo_client_can_be_asked_through_a_first_meeting(demo: Answers) -> None:
    """A whole first meeting in this form for every client, with words of their own for at least 25."""
    for case in demo.course.cases.values():
        client = demo.of(case)
        assert client.walks["first-decision"].asked
        least = client.least_minutes("first-decision")
        assert least is not None
        everything = sum(one.takes for one in demo.course.measures.values())
        assert 0 <= least <= everything
    assert sum(bool(case.said) for case in demo.course.cases.values()) >= 25


def test_what_the_story_tells_takes_no_time(demo: Answers) -> None:
    case = replace(demo.course.cases["osei-01"], told=())
    asked = demo.of(case).least_minutes("first-decision")
    told = demo.of(replace(case, told=("systolic",))).least_minutes("first-decision")
    assert asked is not None
    assert told == asked - demo.course.measures["systolic"].takes == asked - Fraction(6)


def test_missing_a_sign_is_unsafe_and_missing_nothing_is_not(demo: Answers) -> None:
    ruta = demo.of(demo.course.cases["ruta-01"])
    assert ruta.misheard("warning_sign", "none").harm == "serious"
    assert ruta.misheard("warning_sign", ruta.case.readings["warning_sign"].finding or "").harm == "none"
    osei = demo.of(demo.course.cases["osei-01"])
    assert osei.misheard("warning_sign", "fainting").harm == "none", "stopping too soon is told, not unsafe"
