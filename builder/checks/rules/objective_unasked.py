"""No question asks for an objective.

What: an objective is trained by an exercise, a drill or a client, but no question of the bank is about it.

Why: a quiz by a blueprint can never ask for it, and My record can say little about it.

Example:

    objectives:
      coach-squat: {label: Coach a squat}      # an exercise names it, no question does

Cure: write a question or a family for it. (Haladyna and others 2002, every item reflects specific content.)
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "objective-unasked"


def check(scope: Scope) -> Iterator[Fault]:
    course = scope.course
    if "question" in scope.unread or not course.questions:
        return
    asked_for = {question.objective for question in course.questions.values()}
    if not asked_for <= course.objectives.keys():
        return  # what is misspelt may be about it
    trained = {name for one in course.exercises.values() for name in one.objectives}
    trained |= {name for one in course.cases.values() for name in one.objectives}
    trained |= {name for one in course.drills.values() for name in one.objectives}
    for name, objective in course.objectives.items():
        if name in trained - asked_for:
            message = f"No question asks for the objective `{name}`."
            hint = "Write a question or a family for it."
            yield Fault(objective.origin.at(), f"objective:{name}", message, hint)
