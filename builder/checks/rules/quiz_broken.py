"""A quiz cannot be drawn.

What: a blueprint asks for more questions about an objective than the bank has, lists an objective twice, or a
listed family has no client to ask about; or a draw cannot hold what the quiz must include.

Why: learners would get a shorter quiz than you promise.

Example:

    blueprint: [{objective: measure-ankle, count: 40}]       # the bank has 12

Cure: ask for fewer, or write more questions. Questions about clients whose key is too unsure do not count;
they are kept out of marked quizzes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.course import Course, Family, Place, Question, Quiz
from builder.decide.doubt import is_sure_enough
from builder.questions import draw_data, quiz_pool
from builder.questions.draw import included

from ..scope import Fault, Scope

CODE = "quiz-broken"


@dataclass(frozen=True, slots=True)
class _QuizRow:
    """So many of these questions are to be drawn."""

    count: int
    questions: tuple[Question | Family, ...]
    place: Place
    objective: str | None = None
    """For a blueprint's row."""


def check(scope: Scope) -> Iterator[Fault]:
    if "question" in scope.unread:
        return
    for quiz in scope.course.quizzes.values():
        yield from _repeated(quiz)
        for row in _rows(scope.course, quiz):
            # Writing every question takes long with many clients, so first those are counted that surely are.
            if sum(_surely(scope, question) for question in row.questions) < row.count:
                yield from _short(scope, quiz, row)
        if quiz.must_include:
            yield from _left_out(scope, quiz)


def _repeated(quiz: Quiz) -> Iterator[Fault]:
    objectives = [row.objective for row in quiz.blueprint]
    for number, objective in enumerate(objectives):
        if objective in objectives[:number]:
            place = quiz.origin.at("blueprint", number, "objective")
            message = f"The blueprint of {quiz.name} lists `{objective}` twice."
            yield Fault(place, f"quiz:{quiz.name}", message, "Add the two counts up in one row.")
    musts = [(must.objective, must.clients) for must in quiz.must_include]
    for number, must in enumerate(musts):
        if must in musts[:number]:
            place = quiz.origin.at("must_include", number)
            message = f"`must_include` of {quiz.name} lists `{must[0] or must[1]}` twice."
            yield Fault(place, f"quiz:{quiz.name}", message, "Add the two counts up in one row.")


def _rows(course: Course, quiz: Quiz) -> Iterator[_QuizRow]:
    for number, row in enumerate(quiz.blueprint):
        if row.objective not in [one.objective for one in quiz.blueprint[:number]]:
            questions = tuple(one for one in course.questions.values() if one.objective == row.objective)
            yield _QuizRow(row.count, questions, quiz.origin.at("blueprint", number, "count"), row.objective)
    for number, name in enumerate(() if quiz.blueprint else quiz.questions):
        if name in course.questions:
            yield _QuizRow(1, (course.questions[name],), quiz.origin.at("questions", number))


def _short(scope: Scope, quiz: Quiz, row: _QuizRow) -> Iterator[Fault]:
    names = {question.id for question in row.questions}
    there = sum((item.family or item.id) in names for item in quiz_pool(quiz, scope.answers.bank))
    if there + sum(_waiting(scope, question) for question in row.questions) >= row.count:
        return
    subject = f"quiz:{quiz.name}"
    if row.objective is not None:
        message = f"{quiz.name} asks for {row.count} questions on `{row.objective}`; the bank has {there}."
        yield Fault(row.place, subject, message, "Ask for fewer, or write more questions.")
    else:
        message = f"`{row.questions[0].id}` comes to no question that the quiz {quiz.name} could ask."
        yield Fault(row.place, subject, message, "Its clients may be unsure, or do not reach its table.")


def _left_out(scope: Scope, quiz: Quiz) -> Iterator[Fault]:
    """The first thing that the quiz must include and that no draw can hold."""
    asked = [question for row in _rows(scope.course, quiz) for question in row.questions]
    unknown = {one.objective for one in quiz.must_include} - {None, *scope.course.objectives}
    if unknown or any(_waiting(scope, question) for question in asked):
        return
    data = draw_data(quiz, scope.answers.bank)
    held = 0
    for number, must in enumerate(quiz.must_include):
        there = len(included({**data, "must": data["must"][: number + 1]}, range(len(data["pool"]))))
        if there < held + must.count:
            what = f"on `{must.objective}`" if must.objective else f"about clients who are {must.clients}"
            yield Fault(
                quiz.origin.at("must_include", number, "count"),
                f"quiz:{quiz.name}",
                f"{quiz.name} must include {must.count} questions {what}; a draw can hold {there - held}.",
                "Ask for fewer, add such clients, or let the quiz draw more questions that ask about them.",
            )
            return
        held = there


def _surely(scope: Scope, question: Question | Family) -> int:
    """How many questions there are at least."""
    if not isinstance(question, Family):
        return 1
    if question.family != "decision" or question.table not in scope.course.tables:
        return 0
    return sum(
        client.decisions[question.table].state == "decided" and _is_sure(client.chance_of_key(question.table))
        for client in map(scope.answers.client, _clients(scope, question))
        if client is not None
    )


def _is_sure(chance: float | None) -> bool:
    """Whether a marked quiz takes a key of this chance; one that is not known counts as sure."""
    return chance is None or is_sure_enough(chance)


def _waiting(scope: Scope, question: Question | Family) -> int:
    """How many clients' questions are missing for a reason that other problems tell."""
    if not isinstance(question, Family):
        return 0
    course = scope.course
    if question.drill is not None:
        return question.drill not in course.drills
    if question.cases == "practice":
        return 0
    lost = len(scope.unread.get("case", ())) if question.cases == "all" else 0
    return lost + sum(
        name not in course.cases
        or (question.table not in course.tables and question.table != "")
        or (
            question.table != ""
            and scope.answers.clients[name].decisions[question.table].state != "decided"
            and scope.ways.waits(course.cases[name], question.table)
        )
        for name in _clients(scope, question)
    )


def _clients(scope: Scope, family: Family) -> tuple[str, ...]:
    if isinstance(family.cases, tuple):
        return family.cases
    return tuple(scope.course.cases if family.cases == "all" else scope.answers.made_up)
