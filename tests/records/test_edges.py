"""Records at the edges of what they may hold."""

from __future__ import annotations

import json

import pytest

from builder.records import LARGEST, Refused, by_learner, read, reading
from builder.records.reading import MOST
from builder.records.record import Record, merge, ordered, standing

from .make import attempt, attempt_of, quiz, raw, record, step, walk


def reason(file: bytes) -> str | None:
    try:
        read(file, "ankle-squat")
    except Refused as refused:
        return refused.reason
    return None


def test_the_largest_file_and_the_longest_record_are_still_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    """Bounds of our own: common practice."""
    assert (LARGEST, MOST) == (16_000_000, 20_000)
    assert reason(raw(attempt()).ljust(LARGEST)) is None
    assert reason(raw(attempt()).ljust(LARGEST + 1)) == "size"
    monkeypatch.setattr(reading, "MOST", 3)
    assert reason(raw(*[attempt("q", n) for n in range(3)])) is None
    assert reason(raw(*[attempt("q", n) for n in range(4)])) == "many"


@pytest.mark.parametrize(
    ("at", "is_one"),
    [
        ("1970-01-01T00:00:00.000Z", True),
        ("1970-12-31T23:59:59.999Z", True),
        ("1969-12-31T23:59:59.999Z", False),
        ("2024-02-29T00:00:00.000Z", True),
        ("2026-02-29T00:00:00.000Z", False),
    ],
)
def test_moments_are_those_that_a_browser_counts(at: str, is_one: bool) -> None:
    """ECMA-262 counts from 1970-01-01T00:00:00Z, in the Gregorian calendar."""
    try:
        taken = len(read(raw({**attempt(), "at": at}), "ankle-squat").attempts)
    except Refused:
        taken = 0
    assert taken == is_one


@pytest.mark.parametrize(
    ("number", "why"),
    [(1, None), (2, None), (3, "format"), (0, "record"), (-1, "record"), (True, "record"), ("1", "record")],
)
def test_only_a_later_format_is_one_of_a_newer_edition(number: object, why: str | None) -> None:
    assert reason(json.dumps({**record(), "format": number}).encode()) == why


def test_a_long_name_of_a_part_is_cut_off() -> None:
    with pytest.raises(Refused, match=r"does not know: x{60}\.$"):
        read(json.dumps({**record(), "x" * 70: 1}).encode(), "ankle-squat")
    with pytest.raises(Refused, match=r"does not know: aa\.$"):
        read(json.dumps({**record(), "zz": 1, "aa": 1}).encode(), "ankle-squat")


def test_an_attempt_is_good_that_is_right_or_passed() -> None:
    assert attempt_of(attempt()).is_good
    assert not attempt_of(attempt(mark=0.99)).is_good
    assert attempt_of(quiz(0.8, True)).is_good
    assert not attempt_of(quiz(1, False)).is_good


def test_days_are_those_of_the_first_and_the_last_attempt() -> None:
    times = ["2026-06-03T23:59:59.999Z", "2026-06-01T00:00:00.000Z", "2026-06-09T12:00:00.000Z"]
    found = read(raw(*[{**attempt(f"q{n}"), "at": at} for n, at in enumerate(times)]), "ankle-squat")
    (one,) = by_learner([("f", found)])
    assert (one.first_day, one.last_day) == ("2026-06-01", "2026-06-09")


def test_a_fixed_quiz_counts_once() -> None:
    """It has one draw; whoever takes it again has seen it."""
    found = read(raw(quiz(0.8, False, 1), quiz(0.8, True, 2), quiz(0.2, False, 3)), "ankle-squat")
    (one,) = by_learner([("f", found)])
    score = one.quizzes["ankle-check"]
    assert (score.first, score.passed, score.passed_later, score.sittings, score.seen) == (
        0.8,
        False,
        None,
        1,
        2,
    )


def test_only_whole_quizzes_and_walks_count_as_such() -> None:
    found = read(
        raw(
            attempt("q", 1, quiz="ankle-check"),
            attempt("first-visit/tern-03/class", 2, kind="step", mark=0),
            walk("first-visit/tern-03", 3, harm="minor", passed=False),
            walk("second/tern-03", 4),
            attempt("r", 5, objective=""),
        ),
        "ankle-squat",
    )
    (one,) = by_learner([("f", found)])
    assert one.quizzes == {}
    assert {
        name: (walks.walks, walks.passed, walks.minor, walks.serious) for name, walks in one.exercises.items()
    } == {
        "first-visit": (1, 0, 1, 0),
        "second": (1, 1, 0, 0),
    }
    assert [right for right, _ in one.objectives["measure-ankle"]] == [True, False], (
        "the question right, the step wrong"
    )


def test_the_first_is_told_for_each_thing_whatever_its_wording() -> None:
    one, again = attempt_of(attempt("q", 1)), attempt_of(attempt("q", 2, mark=0))
    changed, step = attempt_of(attempt("q", 3, digest="f" * 12)), attempt_of(attempt("q", 4, kind="step"))
    other = attempt_of(attempt("r", 5))
    found = ordered([other, step, changed, again, one])
    assert [attempt.first for attempt in found] == [True, False, False, True, True]
    assert ordered(found) == found
    assert merge([Record("c", (again,)), Record("c", (one, again))]) == ordered([one, again])


def test_attempts_of_one_millisecond_have_an_order_of_their_own() -> None:
    at_once = [
        attempt("b", mark=0.5), attempt("b", mark=1), attempt("a"), attempt("b", kind="step"),
        attempt("b", digest="f" * 12), attempt("b", mark=1, sure=3),
    ]  # fmt: skip
    several = [attempt_of(one) for one in at_once]
    found = ordered(several)
    assert found == ordered(reversed(several))
    assert [(one.kind, one.id, one.digest[:1], one.mark) for one in found] == [
        ("question", "a", "0", 1), ("question", "b", "0", 0.5), ("question", "b", "0", 1),
        ("question", "b", "0", 1), ("question", "b", "f", 1), ("step", "b", "0", 1),
    ]  # fmt: skip


def test_learners_of_one_name_are_one_whatever_its_capitals_and_sorted() -> None:
    def named(name: str) -> Record:
        return read(raw(attempt(), learner=name), "ankle-squat")

    names = {"a": "Abe", "b": "zoe", "c": "ZOE", "d": "Stra\u00dfe", "e": "STRASSE"}
    found = by_learner([(file, named(names[file])) for file in "cbade"])
    assert [(one.name, one.files) for one in found] == [
        ("Abe", ("a",)),
        ("Stra\u00dfe", ("d", "e")),
        ("ZOE", ("b", "c")),
    ]


def test_editions_and_files_are_sorted() -> None:
    names = [f"{n:08x}" for n in (7, 3, 11, 1, 9, 5, 0, 8)]
    saved = [(name, read(raw(attempt(), learner="Wren", build=name), "ankle-squat")) for name in names]
    (one,) = by_learner(saved)
    assert one.files == tuple(sorted(names))
    assert [build for _, build in one.editions] == sorted(names)


def test_who_or_which_sitting_is_not_said_counts_for_neither() -> None:
    found = read(
        raw(
            attempt("q", 1, mark=0, unit="screen/pain", stopped=False),
            attempt("r", 2, quiz="ankle-check", draw=1),
        ),
        "ankle-squat",
    )
    (one,) = by_learner([("f", found)])
    assert one.stopped == {}, "nobody to be stopped is named"
    assert one.quizzes == {}, "no sitting was begun that could have been left"


def test_a_changed_answer_takes_its_walk_and_nothing_else() -> None:
    """Steps of the same sitting are not passed or failed; a quiz is the sum of its own answers."""
    sitting = {"sitting": "0" * 8}
    old = attempt_of(step("e/c/a", 1, key="0" * 8, **sitting))
    kept = attempt_of(step("e/c/b", 2, key="1" * 8, **sitting))
    ends = [attempt_of(walk("e/c", 3, **sitting)), attempt_of(quiz(1, True, 4, **sitting))]
    found = standing([old, kept, *ends], lambda one: ("1" * 8, "") if one.kind == "step" else None)
    assert [(one.id, one.passed) for one in found] == [("e/c/b", None), ("e/c", False), ("ankle-check", True)]
