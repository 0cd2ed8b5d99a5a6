"""What is exactly on a limit is decided alike, however its sum was rounded."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest

from builder.answers import Answers
from builder.course import Case, Client
from builder.decide.doubt import exceeds_error, is_sure_enough, variance
from builder.decide.found import find
from builder.decide.near_lines import is_known_near
from builder.decide.space import Space
from builder.decide.thresholds import TOLERANCE, above, at_least

from .courses import band, course, number, read, table


def test_a_chance_on_the_limit_reaches_it_whichever_way_it_was_rounded() -> None:
    short, over = sum([0.1] * 8), math.nextafter(0.8, 1)
    assert short < 0.8 < over, "both are 0.8 but for rounding"
    assert is_sure_enough(short)
    assert is_sure_enough(over)
    assert not is_sure_enough(0.8 - 2 * TOLERANCE)
    assert not above(over, 0.8)
    assert not above(short, 0.8)
    assert above(0.8 + 2 * TOLERANCE, 0.8)
    assert not at_least(0.7999, 0.8)


def test_lines_that_are_equally_near_are_both_nearest() -> None:
    """One at 4.5 with an error of 3, one at 1.5 with an error of 1: 1.5 errors each over any trials."""
    made = course(
        number("a", 0, 60, sem=3),
        number("b", 0, 60, sem=1),
        table(
            "t",
            "first",
            "a b",
            ("both", {"a": band(at_least=30), "b": band(at_least=30)}, "y"),
            ("rest", {}, "n"),
        ),
    )
    for trials in range(1, 30):
        found = find(made, read(a=[34] * trials, b=[31] * trials))
        assert is_known_near(Space(made), found, "t", ("a",))
        assert is_known_near(Space(made), found, "t", ("b",))


@pytest.mark.parametrize(("value", "reached"), [(59, True), (60, False)])
def test_a_client_right_at_196_errors_reaches_a_line(value: int, reached: bool) -> None:
    """An error of 25 over 4 trials reaches 24.5, exactly the way from the line at 34.5 to 59."""
    made = course(
        number("a", 0, 100, sem=25),
        table("t", "first", "a", ("low", {"a": band(below=35)}, "x"), ("rest", {}, "y")),
    )
    case = Case("k", Client("K"), read(a=[value] * 4))
    [line] = Answers(replace(made, cases={"k": case})).coverage.lines
    assert line.reached is reached


def test_a_distance_right_on_the_limit_does_not_exceed_it() -> None:
    scale = number("a", 0, 60, sem="0.1").scale
    three = variance(scale, 3)
    assert three == Fraction(1, 300)
    assert not exceeds_error(Fraction(196, 1000), variance(scale, 1))
    assert exceeds_error(Fraction(197, 1000), variance(scale, 1))
