"""A quiz cannot be drawn.

What: a blueprint asks for more questions about an objective than the bank has, lists an objective twice, or a
listed family has no client to ask about.

Why: learners would get a shorter quiz than you promise.

Example:

    blueprint: [{objective: measure-ankle, count: 40}]       # the bank has 12

Cure: ask for fewer, or write more questions. Questions about clients whose key is too unsure do not count;
they are kept out of marked quizzes.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Family, Question, Quiz
from builder.questions import Item, quiz_pool

from .reading_missing import waits
from .scope import Fault, Scope

CODE = "quiz-broken"


def check(scope: Scope) -> Iterator[Fault]:
    if "question" in scope.unread:
        return
    for quiz in scope.course.quizzes.values():
        pool = quiz_pool(quiz, scope.bank)
        yield from _blueprint(scope, quiz, pool)
        for number, name in enumerate(quiz.questions if not quiz.blueprint else ()):
            question = scope.course.questions.get(name)
            asked = any(name in (item.id, item.family) for item in pool)
            if question is not None and not asked and not _waits(scope, question):
                yield Fault(
                    quiz.origin.at("questions", number),
                    f"quiz:{quiz.name}",
                    f"`{name}` comes to no question that the quiz {quiz.name} could ask.",
                    "Its clients may be unsure, or do not reach its table.",
                )


def _blueprint(scope: Scope, quiz: Quiz, pool: tuple[Item, ...]) -> Iterator[Fault]:
    subject = f"quiz:{quiz.name}"
    seen: set[str] = set()
    for number, row in enumerate(quiz.blueprint):
        if row.objective in seen:
            place = quiz.origin.at("blueprint", number, "objective")
            message = f"The blueprint of {quiz.name} lists `{row.objective}` twice."
            yield Fault(place, subject, message, "Add the two counts up in one row.")
            continue
        seen.add(row.objective)
        there = sum(item.objective == row.objective for item in pool)
        if there + _waiting(scope, row.objective) < row.count:
            yield Fault(
                quiz.origin.at("blueprint", number, "count"),
                subject,
                f"{quiz.name} asks for {row.count} questions on `{row.objective}`; the bank has {there}.",
                "Ask for fewer, or write more questions.",
            )


def _waiting(scope: Scope, objective: str) -> int:
    """How many clients' questions are missing for a reason that other problems tell."""
    questions = (one for one in scope.course.questions.values() if one.objective == objective)
    return sum(_waits(scope, question) for question in questions)


def _waits(scope: Scope, question: Question | Family) -> int:
    if not isinstance(question, Family):
        return 0
    course = scope.course
    names = list(course.cases) if question.cases == "all" else question.cases
    lost = len(scope.unread.get("case", ())) if question.cases == "all" else 0
    return lost + sum(
        name not in course.cases
        or question.table not in course.tables
        or (
            scope.decisions[name][question.table].state != "decided"
            and waits(scope, course.cases[name], question.table)
        )
        for name in names
    )
