"""What the records of a team come to."""

from __future__ import annotations

import random
from typing import Any

import pytest

from builder.records import Attempt, Learner, read
from builder.records.pseudonyms import pseudonyms
from builder.records.summary import by_learner
from builder.records.task import Task, task_of
from builder.records.team import decided, first_sitting, helps, tasks, to_teach, unsafe_by_caution

from .make import attempt, quiz, raw, step


class Known:
    """A course of one table, whose clients all carry every unit."""

    def choice(self, one: Attempt) -> tuple[str, str, str] | None:
        return ("plan", one.client, one.answer) if one.client and isinstance(one.answer, str) else None

    def clients_of(self, thing: str) -> tuple[str, ...]:
        return ("a-01", "b-02", "c-03", "d-04") if thing != "question:q" else ()


def learner(*attempts: dict[str, Any], name: str = "Wren", **more: Any) -> Learner:
    (one,) = by_learner([("f", read(raw(*attempts, learner=name, **more), "ankle-squat"))])
    return one


def answer(client: str, second: int, mark: float = 0, **more: Any) -> dict[str, Any]:
    return attempt(f"q.{client}", second, mark=mark, **{"client": client, "unit": "plan/stiff", **more})


def test_the_gravest_comes_first_and_three_at_most() -> None:
    one = learner(
        answer("a-01", 1, unit="plan/wrong"),
        answer("a-01", 2, unit="plan/sure", sure=3),
        answer("a-01", 3, unit="plan/harm", harm="minor"),
        answer("b-02", 4, unit="plan/not", harm="minor", stopped=False),
        answer("c-03", 5, unit="plan/any", harm="serious", breaks=["heat", "cold"]),
    )
    assert [(help.thing, help.why) for help in helps(one, Known())] == [
        ("caution:cold", "unsafe"),
        ("caution:heat", "unsafe"),
        ("plan/not", "not_stopped"),
    ]
    shorter = learner(*(answer("a-01", n, unit=f"plan/{n}", sure=1 + n % 3) for n in range(3)))
    assert [(help.thing, help.why) for help in helps(shorter, Known())] == [
        ("plan/2", "sure"),
        ("plan/0", "wrong"),
        ("plan/1", "wrong"),
    ]


def test_clients_not_met_come_before_those_answered_wrong() -> None:
    (one,) = helps(learner(answer("b-02", 1), answer("c-03", 2, mark=1)), Known())
    assert one.clients == ("a-01", "d-04", "b-02")
    assert (one.wrong, one.since) == (1, 1)
    (alone,) = helps(learner(attempt("q", 1, mark=0, unit="question:q")), Known())
    assert alone.clients == ()


def test_what_was_answered_right_about_two_clients_since_is_left_out_unless_unsafe() -> None:
    since = [answer("b-02", 5, mark=1), answer("b-02", 6, mark=1, quiz="x", draw=1)]
    assert [one.since for one in helps(learner(answer("a-01", 1), *since), Known())] == [1], (
        "one client twice"
    )
    since.append(answer("c-03", 7, mark=1))
    assert helps(learner(answer("a-01", 1), *since), Known()) == ()
    (unsafe,) = helps(learner(answer("a-01", 1, harm="serious"), *since), Known())
    assert (unsafe.why, unsafe.since) == ("unsafe", 2)
    (again,) = helps(learner(answer("a-01", 1), *since, answer("d-04", 8)), Known())
    assert (again.wrong, again.since) == (2, 0)


def test_what_several_have_wrong_is_taught_the_unsafe_first() -> None:
    team = [
        learner(
            answer("a-01", 1),
            answer("b-02", 2, unit="plan/free"),
            answer("c-03", 3, unit="plan/any", harm="serious", breaks=["heat"]),
        ),
        learner(
            answer("a-01", 1),
            answer("b-02", 2, unit="plan/free", mark=1),
            answer("c-03", 3, unit="plan/any", harm="serious", breaks=["heat"]),
        ),
        learner(answer("a-01", 1), answer("d-04", 2, unit="plan/own")),
    ]
    found = to_teach(team, Known(), 5)
    assert [(one.thing, one.wrong, one.tried, one.unsafe) for one in found] == [
        ("caution:heat", 2, 3, 2),
        ("plan/stiff", 3, 3, 0),
    ]
    assert found[0].clients == ("a-01", "b-02", "c-03")
    assert len(to_teach(team, Known(), 1)) == 1


def test_a_decision_counts_by_the_first_answer_of_each() -> None:
    team = [
        learner(answer("a-01", 1, answer="x"), answer("a-01", 2, mark=1, answer="y", sitting="0" * 8)),
        learner(answer("a-01", 1, mark=1, answer="y"), step("e/b-02/s", 2, client="b-02", answer="x")),
        learner(answer("a-01", 1, mark=1, answer="y", first=False)),
    ]
    turned = decided(team[::-1], Known())
    assert [list(one.chosen) for one in turned] == [["x", "y"], ["x"]], "whoever comes first"
    assert [(one.table, one.client, one.chosen, one.coaches) for one in decided(team, Known())] == [
        ("plan", "a-01", {"x": (0,), "y": (1,)}, 2),
        ("plan", "b-02", {"x": (1,)}, 1),
    ]


def test_unsafe_answers_stand_by_caution_those_of_most_coaches_first() -> None:
    team = [
        learner(
            answer("a-01", 1, harm="serious", breaks=["cold"], unit="plan/1"),
            answer("b-02", 2, harm="serious", breaks=["cold"], unit="plan/2"),
            answer("c-03", 3, harm="serious", breaks=["heat", "cold"], unit="plan/3"),
        ),
        learner(answer("c-03", 3, harm="serious", breaks=["heat"]), answer("d-04", 4, harm="serious")),
        learner(answer("c-03", 3, harm="minor")),
    ]
    found = unsafe_by_caution(team)
    assert {name: [(place, one.client) for place, one in some] for name, some in found.items()} == {
        "heat": [(0, "c-03"), (1, "c-03")],
        "cold": [(0, "a-01"), (0, "b-02"), (0, "c-03")],
        "": [(1, "d-04")],
    }
    assert list(found) == ["heat", "cold", ""]


def test_a_task_is_done_at_the_end_of_its_own_draw() -> None:
    asked = {"task": "ankle-check/3/2026-06-30", "quiz": "ankle-check", "draw": 3}
    team = [
        learner(
            attempt("a", 1, **asked),
            quiz(0.5, False, 2, **asked),
            quiz(1, True, 3, **asked, sitting="1" * 8),
        ),
        learner(attempt("a", 1, **asked)),
        learner(quiz(1, True, 2, **{**asked, "draw": 4})),
        learner(quiz(1, True, 2, task="no task at all")),
        learner(quiz(1, True, 2, task="ankle-check/3/2026-07-30", draw=3)),
    ]
    late, early = tasks(team)
    assert (late.task, [place for place, _ in late.done]) == (Task("ankle-check", 3, "2026-07-30"), [4])
    assert (early.task, [(place, one.mark) for place, one in early.done]) == (
        Task("ankle-check", 3, "2026-06-30"),
        [(0, 0.5)],
    )


def test_the_first_sitting_that_counts() -> None:
    one = learner(quiz(0.2, False, 2, draw=1), quiz(1, True, 3, draw=1), quiz(0.6, False, 4, draw=2))
    first = first_sitting(one, "ankle-check")
    assert first is not None
    assert first.mark == 0.2
    assert first_sitting(one, "other") is None


@pytest.mark.parametrize(
    ("text", "task"),
    [
        ("ankle-check/3/2026-06-30", Task("ankle-check", 3, "2026-06-30")),
        ("a/0/2024-02-29", Task("a", 0, "2024-02-29")),
        ("a/3/2026-02-29", None),
        ("a/03/2026-06-30", None),
        ("a/3/2026-06-30\n", None),
        ("a/b/3/2026-06-30", None),
        ("a/3", None),
        ("a/-3/2026-06-30", None),
        ("1a/3/2026-06-30", None),
        ("a" * 90 + "/3/2026-06-30", None),
        ("", None),
        (None, None),
    ],
)
def test_a_text_names_a_task_or_none(text: str | None, task: Task | None) -> None:
    assert task_of(text) == task
    if task is not None:
        assert task.text == text


def test_pseudonyms_tell_apart_and_stay() -> None:
    team = [learner(name=f"Coach {number}") for number in range(300)]
    found = pseudonyms(team, "ankle-squat")
    assert len(set(found)) == len(team)
    assert all(mark[0].isalpha() and mark[1:].isdigit() and len(mark) >= 3 for mark in found)
    random.Random(1).shuffle(team)
    fewer = team[:12]
    kept = dict(zip(["Coach 7", "coach  7", "COACH 7"], range(3), strict=True))
    assert len({pseudonyms([learner(name=name)], "ankle-squat") for name in kept}) == 1
    assert pseudonyms([learner(name="Coach 7")], "other") != pseudonyms(
        [learner(name="Coach 7")], "ankle-squat"
    )
    assert len(set(pseudonyms(fewer, "ankle-squat"))) == 12


def test_who_has_no_name_is_told_apart_by_device_or_file() -> None:
    unnamed = [
        *by_learner([("a.json", read(raw(attempt()), "ankle-squat"))]),
        *by_learner([("b.json", read(raw(attempt()), "ankle-squat"))]),
        learner(attempt(), name="", device="0a1b2c3d4e5f6071"),
    ]
    assert len(set(pseudonyms(unnamed, "ankle-squat"))) == 3
    record = read(raw(attempt(), device="0a1b2c3d4e5f6071"), "ankle-squat")
    files = [by_learner([(file, record)]) for file in ("may.json", "june.json")]
    assert len({pseudonyms(one, "ankle-squat") for one in files}) == 1, "the device stays, files come and go"
