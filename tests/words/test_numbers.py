from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.words.numbers import MINUS, number, quantity, span


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [
        (Fraction(112), None, "112"),
        (Fraction(7, 2), None, "3.5"),
        (Fraction(1, 8), None, "0.125"),
        (Fraction(-5, 4), None, f"{MINUS}1.25"),
        (Fraction(0), None, "0"),
        (Fraction(1, 3), None, "0.33"),
        (Fraction(2, 3), None, "0.67"),
        (Fraction(-1, 1000), 2, "0"),
        (Fraction(1, 2), 0, "1"),
        (Fraction(5, 2), 0, "3"),
        (Fraction(-5, 2), 0, f"{MINUS}3"),
        (Fraction(19999, 10000), 2, "2"),
        (0.1 + 0.2, 2, "0.3"),
        (2.675, 2, "2.68"),
        (1200, None, "1200"),
        (120.0, None, "120"),
        (1e-7, 3, "0"),
    ],
)
def test_numbers(value, places, text: str):
    assert number(value, places) == text


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_number_is_refused(value: float):
    with pytest.raises(ValueError, match="finite"):
        number(value)


@pytest.mark.parametrize(
    ("unit", "text"),
    [
        ("deg", "112°"), ("degrees", "112°"), ("°", "112°"), ("%", "112%"), ("cm", "112 cm"),
        ("breaths/min", "112 breaths/min"), ("°C", "112 °C"), ("", "112"),
    ],
)  # fmt: skip
def test_units_stand_as_people_write_them(unit: str, text: str):
    assert quantity(Fraction(112), unit) == text


def test_ranges_name_their_unit_once():
    assert span(118, 119, "deg") == "118 to 119°"
    assert span(118, 118, "deg") == "118°"
    assert span(Fraction(-1, 2), 2, "cm", to="bis") == f"{MINUS}0.5 bis 2 cm"


@given(st.integers(-(10**9), 10**9), st.integers(0, 9))
def test_decimals_read_back_exactly(digits: int, places: int):
    value = Fraction(digits, 10**places)
    text = number(value).replace(MINUS, "-")
    assert Fraction(text) == value
    assert "." not in text or not text.endswith("0")
    assert "e" not in text


@given(st.fractions(), st.integers(0, 6))
def test_rounding_is_to_the_nearest_and_halves_away_from_zero(value: Fraction, places: int):
    shown = Fraction(number(value, places).replace(MINUS, "-"))
    assert abs(shown - value) <= Fraction(1, 2 * 10**places)
    if abs(shown - value) == Fraction(1, 2 * 10**places):
        assert abs(shown) > abs(value)
