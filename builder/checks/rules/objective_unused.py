"""Nothing in the course trains an objective.

What: no question, exercise, drill or client is about it.

Why: the course promises something that a learner cannot practise.

Example:

    objectives:
      choose-ankle-plan: {label: Choose a plan for an ankle}     # no question names it

Cure: write a question or an exercise for it, or take it out of objectives.yml.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import AskStep, Course

from ..scope import Fault, Scope

CODE = "objective-unused"


def check(scope: Scope) -> Iterator[Fault]:
    trained = set(_trained(scope.course))
    if "question" in scope.unread or not trained <= set(scope.course.objectives):
        return  # what is misspelt or cannot be read may be about it
    for name, objective in scope.course.objectives.items():
        if name not in trained:
            message = f"Nothing in the course trains the objective `{name}`."
            hint = "Name it in a question, an exercise or a client, or take it out."
            yield Fault(objective.origin.at(), f"objective:{name}", message, hint)


def _trained(course: Course) -> Iterator[str]:
    for question in course.questions.values():
        yield question.objective
    for case in course.cases.values():
        yield from case.objectives
    for drill in course.drills.values():
        yield from drill.objectives
    for exercise in course.exercises.values():
        yield from exercise.objectives
        for step in exercise.steps.values():
            if isinstance(step, AskStep) and step.objective is not None:
                yield step.objective
