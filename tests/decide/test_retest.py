"""Re-tests against published measurement error."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from statistics import mean, stdev
from typing import Literal

import pytest

from builder.course import Course, Is, Measure, NumberScale
from builder.decide.found import find
from builder.decide.retest import Retested, change_error, detectable_change, retest

from .courses import band, choice, course, number, read, table, yes_no

# Data set A of Weir JP. J Strength Cond Res 2005;19(1):231-240: 8 subjects, 2 trials (me-weir-a).
WEIR_A = [(146, 140), (148, 152), (170, 152), (90, 99), (157, 145), (156, 153), (176, 167), (205, 218)]


def scale(sem: object, of: str = "trial") -> NumberScale:
    return NumberScale("deg", Fraction(0), Fraction(400), Fraction(1), Fraction(str(sem)), of)  # type: ignore[arg-type]


def error_mean_square(rows: list[tuple[int, int]]) -> float:
    """What is left of a two-way analysis of variance when subjects and trials are taken out."""
    grand = mean(score for row in rows for score in row)
    trials = [mean(row[t] for row in rows) for t in range(2)]
    left = [score - mean(row) - trials[t] + grand for row in rows for t, score in enumerate(row)]
    return sum(one**2 for one in left) / (len(rows) - 1)


def test_the_error_of_weirs_data_and_its_detectable_change() -> None:
    """me-weir-a: ms_error 57.1071; me-weir-a-published: sem 7.6; me-weir-a-mdc: sem 7.556927, mdc95
    20.946732."""
    assert error_mean_square(WEIR_A) == pytest.approx(57.1071, abs=1e-4)
    sem = math.sqrt(error_mean_square(WEIR_A))
    assert sem == pytest.approx(7.556927, abs=1e-6)
    assert sem == pytest.approx(7.6, abs=0.05)
    assert detectable_change(scale(sem), 1, 1) == pytest.approx(20.946732, abs=1e-6)


def test_the_same_data_have_another_error_by_reliability() -> None:
    """me-sem-formula, SEM = SD * sqrt(1 - ICC). me-weir-a-two-sems: the SD of all scores, 31.748753, gives
    7.307996 where the mean square gives 7.556927 (from a rounded ICC, so it is held to 5e-6 here). ICC(3,1)
    is 0.947016 (me-icc-fit-caution)."""
    spread = stdev(score for row in WEIR_A for score in row)
    assert spread == pytest.approx(31.748753, abs=1e-6)
    reliability = intraclass_correlation(WEIR_A)
    assert reliability == pytest.approx(0.947016, abs=1e-6)
    by_reliability = spread * math.sqrt(1 - reliability)
    assert by_reliability == pytest.approx(7.307996, abs=5e-6)
    assert detectable_change(scale(by_reliability), 1, 1) < detectable_change(scale(7.556927), 1, 1)


def intraclass_correlation(rows: list[tuple[int, int]]) -> float:
    """ICC(3,1) from mean squares."""
    grand = mean(score for row in rows for score in row)
    subjects = 2 * sum((mean(row) - grand) ** 2 for row in rows) / (len(rows) - 1)
    error = error_mean_square(rows)
    return (subjects - error) / (subjects + error)


@pytest.mark.parametrize(
    ("sem", "printed", "recomputed"),
    [(2.8, 8, 7.7612), (4.0, 11, 11.0874), (3.0, 8, 8.3156), (4.2, 12, 11.6418)],
)
def test_printed_detectable_changes(sem: float, printed: int, recomputed: float) -> None:
    """me-mdc-published-rows: passive straight leg raise, J Sports Sci Med 2009;8(1):116-122, Table 1;
    tolerance 0.5. me-mdc-formula: MDC95 = 1.96 * sqrt(2) * SEM."""
    assert detectable_change(scale(sem), 1, 1) == pytest.approx(printed, abs=0.5)
    assert detectable_change(scale(sem), 1, 1) == pytest.approx(recomputed, abs=1e-4)


def test_trials_shrink_the_error_of_a_change_but_sessions_do_not() -> None:
    assert change_error(scale(3), 3, 3) == pytest.approx(3 * math.sqrt(2 / 3))
    assert change_error(scale(3), 1, 4) == pytest.approx(3 * math.sqrt(1.25))
    assert change_error(scale(3, "session"), 3, 3) == pytest.approx(3 * math.sqrt(2))


def retested(
    first: dict[str, object], second: dict[str, object], *measures: Measure
) -> tuple[Course, Retested]:
    made = course(
        *measures,
        table("t", "first", "a", ("low", {"a": band(below=35)}, "stiff"), ("rest", {}, "free")),
    )
    return made, retest(made, find(made, read(**first)), find(made, read(**second)))


@pytest.mark.parametrize(("second", "differs"), [(36, False), (38, True), (26, True), (27, False)])
def test_a_change_beyond_error_differs(second: int, differs: bool) -> None:
    """1.96 * sqrt(2) * 2 = 5.54 degrees around 32."""
    _, found = retested({"a": 32}, {"a": second}, number("a", 0, 60, sem=2))
    (one,) = found.differences
    assert one.differs is differs
    assert one.change == second - 32
    assert one.detectable == pytest.approx(1.96 * math.sqrt(2) * 2)


def test_a_change_right_on_the_limit_does_not_exceed_it() -> None:
    """With 2 trials each the limit is exactly 1.96 * sem."""
    _, found = retested({"a": [10, 10]}, {"a": [59, 59]}, number("a", 0, 60, sem=25))
    assert found.differences[0].change == 49
    assert found.differences[0].differs is False


def test_without_error_any_change_differs() -> None:
    _, found = retested({"a": 32}, {"a": 33}, number("a", 0, 60))
    assert found.differences[0].differs is True


def test_what_was_read_once_alone_is_no_difference_and_stays_as_it_was() -> None:
    a, b, c = number("a", 0, 60), yes_no("b"), yes_no("c")
    rules = table("t", "first", "a b", ("r", {"b": Is(True), "a": band(above=9)}, "x"), ("s", {}, "y"))
    made = course(a, b, c, rules)
    found = retest(made, find(made, read(a=5, b=True)), find(made, read(a=15, c=True)))
    assert [one.measure for one in found.differences] == ["a"]
    assert [(turn.table, turn.first, turn.second) for turn in found.turns] == [("t", "y", "x")]


def test_findings_and_outcomes_before_and_after() -> None:
    _, found = retested(
        {"a": 32, "b": True, "c": "hip"},
        {"a": 36, "b": False, "c": "hip"},
        number("a", 0, 60, sem=2),
        yes_no("b"),
        choice("c", "hip", "wide"),
    )
    assert [(one.measure, one.differs) for one in found.differences] == [
        ("a", False),
        ("b", True),
        ("c", False),
    ]
    assert [(turn.table, turn.first, turn.second) for turn in found.turns] == [("t", "stiff", "free")]


@pytest.mark.parametrize(
    ("better", "second", "is_better"),
    [
        ("higher", 120, True),
        ("higher", 80, False),
        ("lower", 120, False),
        ("lower", 80, True),
        ("higher", 101, None),
        (None, 120, None),
    ],
)
def test_a_change_that_counts_is_better_in_the_direction_that_the_measure_names(
    better: Literal["higher", "lower"] | None, second: int, is_better: bool | None
) -> None:
    measure = Measure("a", "A", replace(scale(1), better=better))
    made = course(measure)
    (found,) = retest(made, find(made, read(a=100)), find(made, read(a=second))).differences
    assert found.better is is_better
