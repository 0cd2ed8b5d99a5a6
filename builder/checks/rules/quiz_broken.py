"""A quiz cannot be drawn.

What: a blueprint asks for more questions of a sort than the bank has, or lists one sort twice; a listed
family has no client to ask about; a draw cannot hold what the quiz must include, once one of each group that
never comes together is left; or a client comes twice where `no_client_twice` is set.

Why: learners would get a shorter quiz than you promise.

Example:

    blueprint: [{objective: measure-ankle, count: 40}]       # the bank has 12

Cure: ask for fewer, or write more questions. Questions about clients whose key is too unsure do not count;
they are kept out of marked quizzes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from math import prod

from builder.course import BlueprintRow, Course, Family, Place, Question, Quiz
from builder.decide.doubt import is_sure_enough
from builder.questions import draw_data
from builder.questions.draw import DrawData, apart, drawn, first_fit, included
from builder.questions.families import kind_of
from builder.questions.papers import PAPERS

from ..scope import Fault, Scope

CODE = "quiz-broken"


WAYS = 256
"""Ways to leave one of each group that never comes together that are tried."""


@dataclass(frozen=True, slots=True)
class _QuizRow:
    """So many of these questions are to be drawn."""

    number: int
    count: int
    questions: tuple[Question | Family, ...]
    place: Place
    of: BlueprintRow | None = None


def check(scope: Scope) -> Iterator[Fault]:
    if "question" in scope.unread:
        return
    for quiz in scope.course.quizzes.values():
        yield from _repeated(quiz)
        for row in _rows(scope.course, quiz):
            # Writing every question takes long with many clients, so first those are counted that surely are.
            surely = sum(_surely(scope, question) for question in row.questions)
            if quiz.never_with or surely < row.count:
                yield from _short(scope, quiz, row)
        if quiz.must_include:
            yield from _left_out(scope, quiz)
        if quiz.no_client_twice:
            yield from _twice(scope, quiz)


def _repeated(quiz: Quiz) -> Iterator[Fault]:
    asked = [row.asks for row in quiz.blueprint]
    for number, row in enumerate(quiz.blueprint):
        if row.asks in asked[:number]:
            message = f"The blueprint of {quiz.name} lists {_named(row)} twice."
            yield Fault(row.origin.at(), f"quiz:{quiz.name}", message, "Add the two counts up in one row.")
    musts = [(must.objective, must.clients) for must in quiz.must_include]
    for number, must in enumerate(musts):
        if must in musts[:number]:
            place = quiz.origin.at("must_include", number)
            message = f"`must_include` of {quiz.name} lists `{must[0] or must[1]}` twice."
            yield Fault(place, f"quiz:{quiz.name}", message, "Add the two counts up in one row.")


def _rows(course: Course, quiz: Quiz) -> Iterator[_QuizRow]:
    homes = {name: first_fit(quiz, _traits(course, one)) for name, one in course.questions.items()}
    for number, row in enumerate(quiz.blueprint):
        if row.asks not in [one.asks for one in quiz.blueprint[:number]]:
            questions = tuple(one for name, one in course.questions.items() if homes[name] == number)
            yield _QuizRow(number, row.count, questions, row.origin.at("count"), row)
    for number, name in enumerate(() if quiz.blueprint else quiz.questions):
        if name in course.questions:
            place = quiz.origin.at("questions", number)
            yield _QuizRow(number, 1, (course.questions[name],), place)


def _traits(course: Course, question: Question | Family) -> tuple[str | None, ...]:
    objective = course.objectives.get(question.objective)
    level = objective.level if objective else None
    if isinstance(question, Question):
        return question.objective, level, question.kind, None
    return question.objective, level, kind_of(question), question.family


def _short(scope: Scope, quiz: Quiz, row: _QuizRow) -> Iterator[Fault]:
    data = draw_data(quiz, scope.answers.bank)
    there = min(way["pool"].count(row.number) for way in _ways(data))
    if there + sum(_waiting(scope, question) for question in row.questions) >= row.count:
        return
    subject = f"quiz:{quiz.name}"
    if row.of is None and quiz.never_with and data["pool"].count(row.number):
        message = (
            f"`{row.questions[0].id}` is left out of some draws of {quiz.name}, since another one is in."
        )
        yield Fault(
            row.place, subject, message, "A listed question stands in every draw: shorten `never_with`."
        )
    elif row.of is None:
        message = f"`{row.questions[0].id}` comes to no question that the quiz {quiz.name} could ask."
        yield Fault(row.place, subject, message, "Its clients may be unsure, or do not reach its table.")
    else:
        has = "a draw can hold" if quiz.never_with else "the bank has"
        asks = f"{row.count} question{'s' if row.count > 1 else ''}"
        message = f"{quiz.name} asks for {asks} on {_named(row.of)}; {has} {there}."
        hint = "Ask for fewer, or write more questions."
        if row.number and [name for name in row.of.asks if name] != [row.of.objective]:
            hint += " A question counts for the first row that it fits."
        yield Fault(row.place, subject, message, hint)


def _named(row: BlueprintRow) -> str:
    names = zip(("objective", "level", "kind", "family"), row.asks, strict=True)
    asked = [(key, value) for key, value in names if value is not None]
    if [key for key, _ in asked] == ["objective"]:
        return f"`{row.objective}`"
    return ", ".join(f"{key} `{value}`" for key, value in asked)


def _ways(data: DrawData) -> Iterator[DrawData]:
    """What is left of the pools, for every choice of what stays of each group that never comes together; of
    very many choices, as if nothing stayed."""
    choices = [[items for items in group if items] for group in data["never"]]
    if prod(len(group) for group in choices if group) > WAYS:
        gone = {item for group in choices for items in group for item in items}
        yield {**data, "pool": [-1 if item in gone else pool for item, pool in enumerate(data["pool"])]}
        return
    for kept in product(*(group for group in choices if group)):
        first = [item for items in kept for item in items]
        rest = [item for item in range(len(data["pool"])) if item not in first]
        yield apart(data, [*first, *rest])


def _left_out(scope: Scope, quiz: Quiz) -> Iterator[Fault]:
    """The first thing that the quiz must include and that some draw cannot hold."""
    if _is_unknown(scope, quiz):
        return
    held = 0
    for number, must in enumerate(quiz.must_include):
        there = min(
            len(included({**way, "must": way["must"][: number + 1]}, range(len(way["pool"]))))
            for way in _ways(draw_data(quiz, scope.answers.bank))
        )
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


def _twice(scope: Scope, quiz: Quiz) -> Iterator[Fault]:
    """Where some draw asks about a client twice: looked for in draws, since what must be there may stand in
    the way of what could be."""
    if _is_unknown(scope, quiz):
        return
    data = draw_data(quiz, scope.answers.bank)
    most = 0
    for seed in range(1, PAPERS + 1):
        clients = Counter(data["client"][item] for item in drawn(data, seed) if data["client"][item] >= 0)
        most = max(most, sum(count - 1 for count in clients.values()))
    if most:
        clients_there = len({client for client in data["client"] if client >= 0})
        many = f"{most} question{'s' if most > 1 else ''}"
        message = (
            f"{quiz.name} asks {many} too many about clients: some draw takes a client twice. There are "
            f"{clients_there} to ask about."
        )
        hint = "Ask fewer questions about clients, or let more clients be asked about."
        yield Fault(quiz.origin.at("no_client_twice"), f"quiz:{quiz.name}", message, hint)


def _is_unknown(scope: Scope, quiz: Quiz) -> bool:
    """Whether what the quiz can ask is missing for a reason that other problems tell."""
    asked = [question for row in _rows(scope.course, quiz) for question in row.questions]
    unknown = {one.objective for one in quiz.must_include} - {None, *scope.course.objectives}
    return bool(unknown) or any(_waiting(scope, question) for question in asked)


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
