from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course import Reading
from builder.decide.found import find
from builder.decide.grid import index, on_grid, size, value

from .courses import choice, course, number, read, yes_no

ANKLE = number("ankle", 0, 60)


def test_a_domain_counts_both_ends():
    assert size(ANKLE) == 61
    assert size(number("tape", "2.5", "4", "0.5")) == 4
    assert size(choice("stance", "narrow", "hip", "wide")) == 3
    assert size(yes_no("pain")) == 2


def test_values_stand_in_order():
    assert [value(number("tape", "2.5", "4", "0.5"), at) for at in range(4)] == [
        Fraction(5, 2), Fraction(3), Fraction(7, 2), Fraction(4),
    ]  # fmt: skip
    assert [value(choice("stance", "narrow", "hip"), at) for at in range(2)] == ["narrow", "hip"]
    assert [value(yes_no("pain"), at) for at in range(2)] == [False, True]


@pytest.mark.parametrize("at", [-1, 61])
def test_there_is_no_value_outside_the_domain(at: int):
    with pytest.raises(IndexError):
        value(ANKLE, at)


@pytest.mark.parametrize("at", [-1, 2])
@pytest.mark.parametrize("measure", [choice("stance", "narrow", "hip"), yes_no("pain")])
def test_nor_is_there_a_third_of_two(measure, at: int):
    with pytest.raises(IndexError):
        value(measure, at)


@pytest.mark.parametrize(
    ("trials", "step_index"),
    [([31, 33, 32], 32), ([34, 36, 35], 35), ([31, 32], 32), ([31, 32, 32, 32], 32), ([0], 0)],
)
def test_trials_are_recorded_to_the_nearest_step_and_halves_upwards(trials: list[int], step_index: int):
    assert index(ANKLE, read(ankle=trials)["ankle"]) == step_index


def test_halves_go_up_below_zero_too():
    hip = number("hip", -20, 20)
    assert value(hip, index(hip, read(hip=[-3, -2])["hip"])) == -2


@pytest.mark.parametrize(
    ("measure", "reading"),
    [
        (ANKLE, Reading()),
        (ANKLE, Reading((Fraction(61),))),
        (ANKLE, Reading((Fraction(-1),))),
        (ANKLE, Reading((Fraction(63, 2),))),
        (ANKLE, Reading(finding="stiff")),
        (ANKLE, Reading(finding=True)),
        (choice("stance", "narrow", "hip"), Reading(finding="wide")),
        (choice("stance", "narrow", "hip"), Reading((Fraction(1),))),
        (choice("stance", "narrow", "hip"), Reading(finding=True)),
        (yes_no("pain"), Reading(finding="yes")),
        (yes_no("pain"), Reading((Fraction(1),))),
    ],
)
def test_a_reading_that_cannot_be_is_refused(measure, reading: Reading):
    with pytest.raises(ValueError, match=measure.name):
        index(measure, reading)
    assert find(course(measure), {measure.name: reading}).values == {}


def test_only_numbers_lie_on_a_grid():
    assert on_grid(ANKLE, Fraction(12))
    assert not on_grid(ANKLE, Fraction(25, 2))
    assert not on_grid(yes_no("pain"), Fraction(1))


@st.composite
def trials_on_a_grid(draw):
    step = Fraction(draw(st.integers(1, 40)), draw(st.sampled_from([1, 2, 4, 5, 10, 100])))
    start = Fraction(draw(st.integers(-300, 300)), 10)
    measure = number("x", start, start + step * draw(st.integers(1, 60)), step)
    places = draw(st.lists(st.integers(0, size(measure) - 1), min_size=1, max_size=7))
    return measure, tuple(value(measure, place) for place in places)


@given(trials_on_a_grid())
def test_the_rounding_law(drawn):
    """The recorded value is on the grid; no step is nearer to the mean; the upper of two equally near."""
    measure, trials = drawn
    mean = sum(trials, Fraction(0)) / len(trials)
    kept = value(measure, index(measure, Reading(trials)))
    assert on_grid(measure, kept)
    distances = [(abs(value(measure, at) - mean), -value(measure, at)) for at in range(size(measure))]
    assert min(distances) == (abs(kept - mean), -kept)


@given(st.lists(st.integers(0, 600), min_size=1, max_size=9))
def test_rounding_agrees_with_decimal_arithmetic(tenths: list[int]):
    """Against Python's decimal module, which rounds half up (positive numbers, steps of a tenth)."""
    measure = number("x", 0, 60, "0.1")
    reading = Reading(tuple(Fraction(tenth, 10) for tenth in tenths))
    mean = Decimal(sum(tenths)) / len(tenths)
    assert index(measure, reading) == int(mean.quantize(Decimal(1), ROUND_HALF_UP))


@given(trials_on_a_grid())
def test_one_trial_is_recorded_as_it_is(drawn):
    measure, trials = drawn
    assert find(course(measure), {"x": Reading(trials[:1])}).values == {"x": trials[0]}
