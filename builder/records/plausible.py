"""What cannot be true of a record. The browser's `web/plausible.js` doubts the same."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import Literal, Protocol

from builder.decide.harm import Told
from builder.questions import Item
from builder.questions.marking import Reply, harm_of, mark, mark_quiz

from .facts import QuizFacts
from .record import Attempt

Reason = Literal["mark", "future", "quiz"]
"""A mark, or a harm, that its answers do not give; a day that has not come; a quiz that is not there."""

_HAIR = 1e-9


class Known(Protocol):
    """What the course says; see `facts.py`."""

    @property
    def quizzes(self) -> Mapping[str, QuizFacts]: ...

    @property
    def items(self) -> Mapping[str, Item]: ...

    def outcome(self, attempt: Attempt) -> str | None: ...

    def now(self, attempt: Attempt) -> tuple[str, str] | None: ...

    def marked(self, item: Item, answer: Reply) -> tuple[float, Told]: ...


def implausible(attempts: Sequence[Attempt], known: Known, today: str) -> dict[Attempt, Reason]:
    """The attempts that cannot be true, by the course as it is and the day as 2026-06-01.

    A mark is worked out again where the question is still as it was and the answer is known. Times are in
    UTC: somewhere the day after today may have begun.
    """
    tomorrow = (date.fromisoformat(today) + timedelta(1)).isoformat()
    found: dict[Attempt, Reason] = {}
    for one in attempts:
        if one.at[:10] > tomorrow:
            found[one] = "future"
        elif (one.quiz is not None and one.quiz not in known.quizzes) or (
            one.kind == "quiz" and one.id not in known.quizzes
        ):
            found[one] = "quiz"
        elif not _fits(one, attempts, known):
            found[one] = "mark"
    return found


def _fits(one: Attempt, attempts: Sequence[Attempt], known: Known) -> bool:
    if one.kind == "quiz":
        return _quiz_fits(one, attempts, known)
    if one.kind == "step":
        outcome, now = known.outcome(one), known.now(one)
        told = outcome is not None and now is not None and one.key == now[0] and one.answer is not None
        return not told or one.right == (one.answer == outcome)
    item = _as_it_was(one, known)
    if item is None:
        return True
    gained, harm = known.marked(item, one.answer)
    return one.right == (gained == 1) and abs(one.mark - gained) < _HAIR and one.harm in (None, harm)


def _as_it_was(one: Attempt, known: Known) -> Item | None:
    """The question that was answered, where it has not changed since and the answer is known."""
    item = known.items.get(one.id) if one.kind == "question" and one.answer is not None else None
    return item if item is not None and item.digest == one.digest else None


def _quiz_fits(one: Attempt, attempts: Sequence[Attempt], known: Known) -> bool:
    """By the answers of the same sitting, where all of them can be marked again."""
    quiz = known.quizzes[one.id]
    given = [answer for answer in attempts if answer.kind == "question" and answer.sitting == one.sitting]
    items = [_as_it_was(answer, known) for answer in given]
    if one.sitting is None or len(given) != quiz.asks or None in items:
        return True
    pairs = [(item, answer.answer) for item, answer in zip(items, given, strict=True) if item is not None]
    serious = quiz.serious == "fails" and any(harm_of(*pair) == "serious" for pair in pairs)
    result = mark_quiz([mark(*pair) for pair in pairs], quiz.pass_mark, serious)
    passed = one.digest != quiz.digest or one.passed == result.held
    return abs(one.mark - result.mark) < _HAIR and passed
