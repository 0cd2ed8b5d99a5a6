"""How long learners took, by hand."""

from __future__ import annotations

from builder.records import Attempt, Record
from builder.records.timing import LONGEST, Taken, taken


def answer(kind: str, name: str, seconds: float, second: int = 0) -> Attempt:
    at = f"2026-06-01T00:00:{second:02}.000Z"
    return Attempt(kind, name, "0123456789ab", at, "o", 1.0, ms=int(seconds * 1000))  # type: ignore[arg-type]


def record(*attempts: Attempt) -> Record:
    return Record("c", tuple(attempts), "ada")


def test_first_answers_are_timed_and_steps_of_a_client_add_up() -> None:
    one = record(
        answer("question", "q", 60, 1),
        answer("question", "q", 5, 2),
        answer("question", "r", 120, 3),
        answer("step", "e/tern/a", 30, 4),
        answer("step", "e/tern/b", 90, 5),
        answer("step", "e/rail/a", 60, 6),
    )
    two = record(answer("question", "q", 180, 1))
    questions, walks = taken([one, two])
    assert questions == Taken(2.0, 1.5, 2.5, 3)
    assert walks == Taken(1.5, 1.25, 1.75, 2)


def test_a_page_left_open_and_an_answer_without_a_time_are_left_out() -> None:
    open_ = answer("question", "q", LONGEST / 1000 + 1)
    none = answer("question", "r", 1)._replace(ms=None)
    assert taken([record(open_, none)]) == (None, None)
    assert taken([record(answer("question", "q", 30))])[0] == Taken(0.5, 0.5, 0.5, 1)
