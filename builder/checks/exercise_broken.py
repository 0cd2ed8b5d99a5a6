"""A learner can get stuck in an exercise.

What: a step leads round and round without an end; an `ask` step has no choice marked `best`; a `decide` step
says nothing for one of its table's outcomes; or no way of best answers leads to an end.

Why: the walk could not go on, and there would be no best path to mark it against.

Example:

    class: {decide: ankle_class, go: {stiff: warm_up}}       # and where does `free` go?

Cure: name the next step for every outcome, mark at least one choice `best: true`, and see that every step
leads to one with `end`.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import DecideStep, Exercise
from builder.exercises import facts

from .scope import Fault, Scope, listed

CODE = "exercise-broken"


def check(scope: Scope) -> Iterator[Fault]:
    for exercise in scope.course.exercises.values():
        yield from _graph(exercise)
        for name, step in exercise.steps.items():
            if isinstance(step, DecideStep) and step.table in scope.course.tables:
                lacking = [o for o in scope.course.tables[step.table].outcomes if o not in step.go]
                if lacking:
                    yield Fault(
                        step.origin.at("go"),
                        f"exercise:{exercise.name}",
                        f"The step `{name}` does not say where {listed(lacking)} of {step.table} leads.",
                        "Name the next step for every outcome under `go`.",
                    )


def _graph(exercise: Exercise) -> Iterator[Fault]:
    found = facts(exercise)
    if found.missing:
        return  # told as missing references; what follows from them would only confuse
    subject = f"exercise:{exercise.name}"
    for name in found.trapped:
        place = exercise.steps[name].origin.at()
        message = f"No answers lead from the step `{name}` of {exercise.name} to an end."
        yield Fault(place, subject, message, "Let one of its ways lead on to a step with `end`.")
    for name in found.no_best:
        place = exercise.steps[name].origin.at("choices")
        message = f"No choice of the step `{name}` of {exercise.name} is the best one."
        yield Fault(place, subject, message, "Mark at least one choice `best: true`.")
    for name in () if found.no_best else found.no_best_way:
        place = exercise.steps[name].origin.at()
        message = f"The best answers from the step `{name}` of {exercise.name} never come to an end."
        yield Fault(place, subject, message, "Let a best choice lead on towards a step with `end`.")
