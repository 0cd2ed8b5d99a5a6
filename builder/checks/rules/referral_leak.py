"""Someone who must be sent on can end an exercise without it.

What: a client meets a caution of the level `refer` or `urgent`, and by following the computed keys and any of
your choices an exercise can end for them at a step without `sends_on: true`.

Why: a learner would practise coaching someone who must not be coached.

Example:

    caution: heel_pain_loading            # level: refer
    steps:
      class: {decide: ankle_class, go: {stiff: done, free: done}}      # heel pain is never asked for
      done: {end: Coached}

Cure: let a `decide` step of a table that sends these clients on come first, or mark the end `sends_on: true`
if that is what happens there.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "referral-leak"


def check(scope: Scope) -> Iterator[Fault]:
    for finding in scope.findings(CODE):
        exercise = scope.course.exercises[finding.exercise or ""]
        step = exercise.steps[finding.step or exercise.start]
        yield Fault(
            step.origin.at(),
            f"exercise:{exercise.name}",
            f"Someone who meets {finding.caution} can end {exercise.name} at the step `{finding.step}`, "
            "which does not send them on.",
            "Let a step that sends these clients on come before it.",
            scope.example(finding),
            scope.region(finding),
        )
