"""No walk through an exercise comes to a step.

What: no answer leads to this step, from the start on.

Why: it was written for nothing, or the way to it was forgotten.

Example:

    steps:
      screen: {decide: screen, go: {refer_out: sent_on, clear: done}}
      warm_up: {ask: ..., choices: [...]}          # nothing leads here

Cure: let a `go` lead to it, or take it out.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.exercises import facts

from ..scope import Fault, Scope

CODE = "step-unreachable"


def check(scope: Scope) -> Iterator[Fault]:
    for exercise in scope.course.exercises.values():
        found = facts(exercise)
        for name in () if found.missing else found.unreachable:
            yield Fault(
                exercise.steps[name].origin.at(),
                f"exercise:{exercise.name}",
                f"No answer leads to the step `{name}` of {exercise.name}.",
                "Let a `go` lead to it, or take it out.",
            )
