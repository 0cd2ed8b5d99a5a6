"""What cannot be true of a record is named, and counts for nothing."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from builder.answers import Answers
from builder.decide.harm import Told
from builder.exercises.page_data import key_digest
from builder.questions import Item, draw_quiz
from builder.questions.marking import Reply, harm_of, mark
from builder.records import Attempt, Facts, implausible
from builder.records.facts import QuizFacts
from builder.source import load
from builder.words import words_for

from ..conftest import ANKLE
from ..marking.tables import item
from .make import attempt, attempt_of, quiz, step

TABLE = json.loads((Path(__file__).parent / "plausible.json").read_text("utf-8"))


class Known:
    """What the table says of a course."""

    @property
    def quizzes(self) -> dict[str, QuizFacts]:
        return {
            name: QuizFacts(one["asks"], Fraction(*one["pass_mark"]), one["serious"], one["digest"])
            for name, one in TABLE["quizzes"].items()
        }

    @property
    def items(self) -> dict[str, Item]:
        found = {}
        for name, one in TABLE["items"].items():
            made = item(one)
            found[name] = Item(name, made.kind, "o", "", made.key, made.options, digest=one["digest"])
        return found

    def outcome(self, attempt: Attempt) -> str | None:
        found: str | None = TABLE["outcomes"].get(attempt.id)
        return found

    def now(self, attempt: Attempt) -> tuple[str, str] | None:
        key = TABLE["keys"].get(attempt.id)
        return (key, "") if key else None

    def marked(self, item: Item, answer: Reply) -> tuple[float, Told]:
        return float(mark(item, answer)), harm_of(item, answer)


@pytest.mark.parametrize("case", TABLE["cases"], ids=[case["name"] for case in TABLE["cases"]])
def test_an_attempt_can_be_true_or_not(case: dict[str, Any]) -> None:
    attempts = [attempt_of(one) for one in case["attempts"]]
    found = implausible(attempts, Known(), TABLE["today"])
    assert [found.get(one) for one in attempts] == case["reasons"]


def test_what_a_course_says_of_an_attempt() -> None:
    course = load(ANKLE).course
    answers = Answers(course, words_for(course.about.language))
    facts = Facts(answers)
    items = {one.id: one for one in answers.bank}
    asked = attempt_of(attempt("g-plan.tern-03"))
    assert facts.now(asked) == (items["g-plan.tern-03"].key_digest, items["g-plan.tern-03"].digest)
    decided, written = (attempt_of(step(f"first-visit/tern-03/{name}")) for name in ("class", "warm_up"))
    assert facts.outcome(decided) == "stiff"
    assert facts.outcome(written) is None
    walk = answers.clients["tern-03"].walks["first-visit"]
    assert facts.now(decided) == (key_digest(walk.steps["class"]), "")
    assert facts.now(written) == (key_digest(walk.steps["warm_up"]), "")
    for gone in ("first-visit/nobody/class", "nothing/tern-03/class", "first-visit/tern-03/nothing", "x"):
        assert facts.now(attempt_of(step(gone))) is None, gone
    assert facts.now(attempt_of(attempt("gone"))) is None
    assert facts.now(attempt_of(quiz(1, True))) is None
    check = facts.quizzes["ankle-check"]
    assert check.asks == len(draw_quiz(course.quizzes["ankle-check"], answers.bank))
    assert (check.pass_mark, check.serious) == (Fraction(4, 5), "fails")


def test_steps_of_a_drill_have_digests_too(drill_course: Path) -> None:
    course = load(drill_course).course
    facts = Facts(Answers(course))
    walks = [name for name in facts.asked if name.startswith("drill.")]
    assert walks
    for name in walks:
        assert facts.now(attempt_of(step(f"{name}/stop"))) is not None


def test_a_quiz_without_a_name_for_its_sitting_is_taken_on_trust() -> None:
    """Nobody can tell which answers were its own."""
    course = load(ANKLE).course
    answers = Answers(course, words_for(course.about.language))
    facts = Facts(answers)
    asked = draw_quiz(course.quizzes["ankle-check"], answers.bank)
    known = [item for item in answers.bank if item.kind in ("one", "several")][: len(asked)]
    assert len(known) == len(asked)
    given = [
        attempt(item.id, place, digest=item.digest, answer=item.key, quiz="ankle-check", draw=1)
        for place, item in enumerate(known)
    ]
    end = quiz(0.5, False, 9, digest=facts.quizzes["ankle-check"].digest)
    assert implausible([attempt_of(one) for one in (*given, end)], facts, "2026-06-30") == {}
