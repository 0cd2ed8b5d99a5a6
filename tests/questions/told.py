"""A bank whose keys are as sure as a test says."""

from __future__ import annotations

from collections.abc import Mapping

from builder.answers import Answers, ClientAnswers
from builder.course import Course
from builder.questions import Item, build_bank


def unsure(course: Course, chances: Mapping[str, Mapping[str, float]]) -> tuple[Item, ...]:
    """The bank where the keys of these clients and tables have these chances, and no others are known."""

    class Told(ClientAnswers):
        def chance_of_key(self, table: str) -> float | None:
            return chances.get(self.case.name, {}).get(table)

    answers = Answers(course)
    clients = {name: Told(answers.rules, case) for name, case in course.cases.items()}
    return build_bank(course, clients=clients)
