from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.words import ENGLISH, words_for
from builder.words.numbers import MINUS, listed, number, percent, quantity, span

SPANISH = words_for("es")


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
    assert number(ENGLISH, value, places) == text


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_number_is_refused(value: float):
    with pytest.raises(ValueError, match="finite"):
        number(ENGLISH, value)


@pytest.mark.parametrize(
    ("unit", "text"),
    [
        ("deg", "112°"), ("degrees", "112°"), ("°", "112°"), ("%", "112%"), ("cm", "112 cm"),
        ("breaths/min", "112 breaths/min"), ("°C", "112 °C"), ("", "112"),
    ],
)  # fmt: skip
def test_units_stand_as_people_write_them(unit: str, text: str):
    assert quantity(ENGLISH, Fraction(112), unit) == text


def test_ranges_name_their_unit_once():
    assert span(ENGLISH, 118, 119, "deg") == "118 to 119°"
    assert span(ENGLISH, 118, 118, "deg") == "118°"
    assert span(SPANISH, Fraction(-1, 2), 2, "cm") == f"{MINUS}0,5 a 2 cm"


@given(st.integers(-(10**9), 10**9), st.integers(0, 9))
def test_decimals_read_back_exactly(digits: int, places: int):
    value = Fraction(digits, 10**places)
    text = number(ENGLISH, value).replace(MINUS, "-")
    assert Fraction(text) == value
    assert "." not in text or not text.endswith("0")
    assert "e" not in text


@given(st.fractions(), st.integers(0, 6))
def test_rounding_is_to_the_nearest_and_halves_away_from_zero(value: Fraction, places: int):
    shown = Fraction(number(ENGLISH, value, places).replace(MINUS, "-"))
    assert abs(shown - value) <= Fraction(1, 2 * 10**places)
    if abs(shown - value) == Fraction(1, 2 * 10**places):
        assert abs(shown) > abs(value)


@pytest.mark.parametrize(
    ("tag", "mark"),
    [("es", ","), ("es-419", "."), ("es-AR", ","), ("es-CO", ","), ("es-MX", "."), ("es-US", ".")],
)
def test_decimals_stand_behind_the_mark_of_the_language_and_its_region(tag: str, mark: str):
    """Unicode CLDR 47, symbols of numbers: `,` in es, es-AR and es-CO, `.` in es-419, es-MX and es-US."""
    words = words_for(tag)
    assert number(words, Fraction(-7, 2)) == f"{MINUS}3{mark}5"
    assert quantity(words, 2.5, "cm", 2) == f"2{mark}5 cm"


@pytest.mark.parametrize("tag", ["en", "en-ZA", "fo"])
def test_english_words_go_with_a_point(tag: str):
    assert number(words_for(tag), 3.5) == "3.5"


def test_per_cent_as_the_language_sets_it():
    assert quantity(ENGLISH, 12.5, "percent") == "12.5%"
    assert quantity(SPANISH, 12.5, "%") == "12,5\N{NO-BREAK SPACE}%"
    assert percent(ENGLISH, 0.8) == "80%"
    assert percent(SPANISH, 0.799) == "79\N{NO-BREAK SPACE}%"


def test_numbers_with_a_comma_in_them_are_parted_by_semicolons():
    assert listed(ENGLISH, [Fraction(7, 2), Fraction(4)]) == "3.5, 4"
    assert listed(SPANISH, [Fraction(7, 2), Fraction(4)]) == "3,5; 4"
    assert listed(SPANISH, [Fraction(3), Fraction(4)]) == "3, 4"


def test_days_by_the_cldr_and_in_english_as_they_stand():
    """Unicode CLDR 47, medium dates: `d MMM y` in Spanish."""
    assert ENGLISH.day("2026-03-09") == "2026-03-09"
    assert SPANISH.day("2026-03-09") == "9 mar 2026"
    assert SPANISH.day("2026-02-30") == "2026-02-30"
