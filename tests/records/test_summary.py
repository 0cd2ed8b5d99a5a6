"""What the records of several learners amount to."""

from __future__ import annotations

import json
from dataclasses import astuple
from pathlib import Path
from typing import Any

import pytest

from builder.records import Attempt, Learner, QuizScore, Record, WalkScore, by_learner, read
from builder.records.names import same, shown
from builder.records.record import standing

from .make import attempt, attempt_of, quiz, raw, walk

HERE = Path(__file__).parent
SUMMARIES = json.loads((HERE / "summaries.json").read_text("utf-8"))
NAMES = json.loads((HERE / "names.json").read_text("utf-8"))


@pytest.mark.parametrize("case", SUMMARIES, ids=[case["name"] for case in SUMMARIES])
def test_what_a_record_amounts_to(case: dict[str, Any]) -> None:
    (one,) = by_learner([("f", read(raw(*case["attempts"]), "ankle-squat"))])
    counts = {name: [sum(ok for ok, _ in some), len(some)] for name, some in one.objectives.items()}
    assert counts == case["objectives"]
    scores = {name: list(astuple(score)) for name, score in one.quizzes.items()}
    assert scores == case["quizzes"]
    walks = {name: list(astuple(score)) for name, score in one.exercises.items()}
    assert walks == case["exercises"]
    assert one.stopped == case["stopped"]
    assert [attempt.id for attempt in one.serious] == case["serious"]
    assert [attempt.id for attempt in one.unasked] == case["unasked"]
    assert [attempt.id for attempt in one.early] == case["early"]
    assert {str(level): list(counts) for level, counts in one.calibration.items()} == case["calibration"]
    assert [attempt.id for attempt in one.sure_and_wrong] == case["sure_and_wrong"]


STANDING = json.loads((HERE / "standing.json").read_text("utf-8"))


@pytest.mark.parametrize("case", STANDING, ids=[case["name"] for case in STANDING])
def test_what_has_another_right_answer_now_counts_for_nothing(case: dict[str, Any]) -> None:
    def now(one: Attempt) -> tuple[str, str] | None:
        found = case["now"].get(f"{one.kind} {one.id}")
        return tuple(found) if found else None

    left = [
        [one.id, int(one.at[17:19]), one.first, *([one.passed] if one.kind == "walk" else [])]
        for one in standing(map(attempt_of, case["attempts"]), now)
    ]
    assert left == case["left"]


@pytest.mark.parametrize("case", NAMES, ids=[ascii(case["text"]) for case in NAMES])
def test_a_name(case: dict[str, str]) -> None:
    assert (shown(case["text"]), same(case["text"])) == (case["shown"], case["same"])


def learners(*names: str) -> tuple[Learner, ...]:
    """Those of files a, b, and so on, which carry these names."""
    files = [(chr(ord("a") + place), name) for place, name in enumerate(names)]
    return by_learner((file, read(raw(attempt(), learner=name), "ankle-squat")) for file, name in files)


def test_one_learner_whatever_the_capitals_and_spaces() -> None:
    (one,) = learners("Dee Ellis", "dee  ellis ", "\u202eDee\u00a0Ellis", "DEE ELLIS")
    assert (one.name, one.also) == ("Dee Ellis", ("dee ellis", "DEE ELLIS"))
    assert one.files == ("a", "b", "c", "d")


def test_names_stand_in_order_and_blank_ones_are_none() -> None:
    found = learners("wren", "Plover", "\u3000", "\u200b\u202e", "Wren")
    assert [(one.name, one.also, one.files) for one in found] == [
        ("", (), ("c",)),
        ("", (), ("d",)),
        ("Plover", (), ("b",)),
        ("wren", ("Wren",), ("a", "e")),
    ]


def test_one_entry_a_name_over_all_files() -> None:
    phone = read(
        raw(
            attempt("a", 1),
            attempt("b", 2, mark=0),
            learner="Wren",
            version="1",
            build="0" * 8,
            device="0" * 16,
        ),
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
    assert wren.also == ("wren",)
    assert wren.files == ("desk.json", "phone.json")
    assert wren.devices == ("0" * 16,)
    assert wren.editions == (("1", "00000000"), ("2", "11111111"))
    (firsts,) = wren.objectives.values()
    assert (sum(right for right, _ in firsts), len(firsts)) == (1, 2), (
        "first attempts alone, and the same attempt once"
    )
    assert (found[0].first_day, found[0].last_day) == ("", "")
    assert (wren.first_day, wren.last_day) == ("2026-06-01", "2026-06-01")


def test_quizzes_by_first_and_best_and_exercises_by_harm() -> None:
    record = read(
        raw(
            quiz(0.5, False, 1),
            quiz(0.9, True, 2, draw=2),
            quiz(0.7, False, 3),
            walk(second=4, harm="serious", passed=False),
            walk(second=5, harm="minor"),
            walk("first-visit/plover-04", 6),
        ),
        "ankle-squat",
    )
    (one,) = by_learner([("f", record)])
    assert one.quizzes == {"ankle-check": QuizScore(0.5, False, 2, 2, 1, 0)}
    assert one.exercises == {
        "first-visit": WalkScore(walks=3, passed=2, left=0, minor=1, serious=1, unasked=0)
    }
    assert one.objectives == {}


def test_the_first_and_the_last_day() -> None:
    days = [attempt("a", at=f"2026-06-{day:02}T23:59:59.999Z") for day in (9, 1, 30)]
    (one,) = by_learner([("f", read(raw(*days), "ankle-squat"))])
    assert (one.first_day, one.last_day) == ("2026-06-01", "2026-06-30")


def test_no_attempt_can_be_changed() -> None:
    one = Attempt("question", "a", "0123456789ab", "2026-06-01T00:00:00.000Z", "o", 1)
    with pytest.raises(AttributeError):
        one.mark = 0  # type: ignore[misc]
    with pytest.raises(AttributeError):
        one.more = 0  # type: ignore[attr-defined]


@pytest.mark.parametrize("of", [Record, Learner, QuizScore, WalkScore])
def test_nothing_read_or_summed_up_can_be_changed(of: type) -> None:
    assert of.__dataclass_params__.frozen  # type: ignore[attr-defined]
    assert of.__slots__  # type: ignore[attr-defined]


def test_what_is_left_out_of_an_attempt_or_a_record() -> None:
    one = Attempt("question", "a", "0123456789ab", "2026-06-01T00:00:00.000Z", "o", 1)
    assert (one.first, one.quiz, one.draw, one.sure, one.harm, one.passed) == (True, *[None] * 5)
    record = Record("c", (one,))
    assert (record.learner, record.version, record.build, record.unread) == ("", "", "", ())
    assert (record.device, record.stopped) == ("", {})


def test_the_word_of_a_device_counts_for_those_who_were_stopped() -> None:
    """It knows of practice that the copy leaves out; what an answer in a file shows is not talked away."""
    seen = attempt("g-screen.rail-06", 1, mark=0, client="rail-06", unit="screen/pain", stopped=False)
    files = [
        ("a", read(raw(learner="Wren", stopped={"crake-07": True, "rail-06": True}), "ankle-squat")),
        ("b", read(raw(seen, learner="Wren", stopped={"tern-03": False}), "ankle-squat")),
    ]
    (one,) = by_learner(files)
    assert one.stopped == {"crake-07": True, "rail-06": False, "tern-03": False}
