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

from builder.course import Quiz
from builder.questions import Item, quiz_pool

from .scope import Fault, Scope

CODE = "quiz-broken"


def check(scope: Scope) -> Iterator[Fault]:
    if "question" in scope.unread:
        return
    for quiz in scope.course.quizzes.values():
        pool = quiz_pool(quiz, scope.bank)
        yield from _blueprint(quiz, pool)
        for number, name in enumerate(quiz.questions if not quiz.blueprint else ()):
            if name in scope.course.questions and not any(name in (item.id, item.family) for item in pool):
                yield Fault(
                    quiz.origin.at("questions", number),
                    f"quiz:{quiz.name}",
                    f"`{name}` comes to no question that the quiz {quiz.name} could ask.",
                    "Its clients may be unsure, or do not reach its table.",
                )


def _blueprint(quiz: Quiz, pool: tuple[Item, ...]) -> Iterator[Fault]:
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
        if there < row.count:
            yield Fault(
                quiz.origin.at("blueprint", number, "count"),
                subject,
                f"{quiz.name} asks for {row.count} questions on `{row.objective}`; the bank has {there}.",
                "Ask for fewer, or write more questions.",
            )
