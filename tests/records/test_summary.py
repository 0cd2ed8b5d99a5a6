"""What the records of several learners amount to."""

from __future__ import annotations

import pytest

from builder.records import QuizScore, WalkScore, by_learner, read
from builder.statistics import wilson

from .make import attempt, quiz, raw, walk


def test_one_entry_a_name_over_all_files() -> None:
    phone = read(
        raw(attempt("a", 1), attempt("b", 2, mark=0), learner="Wren", version="1", build="0" * 8),
        "ankle-squat",
    )
    desk = read(
        raw(attempt("a", 1), attempt("b", 80_000), learner="wren", version="2", build="1" * 8),
        "ankle-squat",
    )
    none = read(raw(), "ankle-squat")
    found = by_learner([("phone.json", phone), ("desk.json", desk), ("x.json", none), ("y.json", none)])
    assert [one.name for one in found] == ["", "", "Wren"]
    wren = found[2]
    assert wren.files == ("desk.json", "phone.json")
    assert wren.editions == (("1", "00000000"), ("2", "11111111"))
    assert wren.objectives == {"measure-ankle": (1, 2)}, "first attempts alone, and the same attempt once"
    assert (found[0].first_day, found[0].last_day) == ("", "")
    assert (wren.first_day, wren.last_day) == ("2026-06-01", "2026-06-01")


def test_quizzes_by_first_and_best_and_exercises_by_harm() -> None:
    record = read(
        raw(
            quiz(0.5, False, 1),
            quiz(0.9, True, 2),
            quiz(0.7, False, 3),
            walk(second=4, harm="serious", held=False),
            walk(second=5, harm="minor"),
            walk("first-visit/plover-04", 6),
        ),
        "ankle-squat",
    )
    (one,) = by_learner([("f", record)])
    assert one.quizzes == {"ankle-check": QuizScore(0.5, 0.9, True, 3)}
    assert one.exercises == {"first-visit": WalkScore(walks=3, held=2, minor=1, serious=1)}
    assert one.objectives == {}


# Reference value ci-wilson-cp. Source: examples of Newcombe, Stat Med 1998;17:857-872 (remembered), computed
# with statsmodels' proportion_confint and R's prop.test, which agree.
@pytest.mark.parametrize(
    ("held", "of", "low", "high"),
    [
        (81, 263, 0.25529, 0.36621),
        (15, 148, 0.06239, 0.16049),
        (0, 20, 0.0, 0.16113),
        (1, 29, 0.00611, 0.17176),
        (5, 25, 0.08861, 0.39131),
        (18, 20, 0.69897, 0.97213),
        (10, 10, 0.72247, 1.0),
    ],
)
def test_wilsons_interval(held: int, of: int, low: float, high: float) -> None:
    assert wilson(held, of) == pytest.approx((low, high), abs=6e-6)


@pytest.mark.parametrize(("held", "of"), [(0, 0), (-1, 3), (4, 3), (1, -1)])
def test_what_is_no_share_has_no_interval(held: int, of: int) -> None:
    with pytest.raises(ValueError, match="no share"):
        wilson(held, of)
