"""What the records of several learners amount to."""

from __future__ import annotations

from builder.records import QuizScore, WalkScore, by_learner, read

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
