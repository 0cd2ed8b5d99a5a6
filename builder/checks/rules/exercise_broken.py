"""A learner can get stuck in an exercise.

What: a step leads round and round without an end; an `ask` step has no choice marked `best`, or a best one
that says it would do harm; a `decide` step says nothing for one of its table's outcomes; no way of best
answers leads to an end; or a client of the exercise comes to a table that has no outcome for them, since a
reading was left out.

Why: the walk could not go on, and there would be no best path to mark it against.

Example:

    class: {decide: ankle_class, go: {stiff: warm_up}}       # and where does `free` go?

Cure: name the next step for every outcome, mark at least one choice `best: true`, and see that every step
leads to one with `end`. Clients who are sent on early belong into exercises whose first steps send them on.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.course import AskStep, DecideStep, Exercise
from builder.exercises import facts
from builder.exercises.graph import reachable

from ..scope import Fault, Scope, listed

CODE = "exercise-broken"


def check(scope: Scope) -> Iterator[Fault]:
    for exercise in scope.course.exercises.values():
        yield from _graph(exercise)
        yield from _clients(scope, exercise)
        for name, step in exercise.steps.items():
            if isinstance(step, AskStep):
                yield from _harmful(exercise, name, step)
            if isinstance(step, DecideStep) and step.table in scope.course.tables:
                lacking = [o for o in scope.course.tables[step.table].outcomes if o not in step.go]
                if lacking:
                    yield Fault(
                        step.origin.at("go"),
                        f"exercise:{exercise.name}",
                        f"The step `{name}` does not say where {listed(lacking)} of {step.table} leads.",
                        "Name the next step for every outcome under `go`.",
                    )


def _harmful(exercise: Exercise, name: str, step: AskStep) -> Iterator[Fault]:
    for number, choice in enumerate(step.choices):
        if choice.best and choice.harm != "none":
            yield Fault(
                step.origin.at("choices", number, "harm"),
                f"exercise:{exercise.name}",
                f"A best choice of the step `{name}` of {exercise.name} says that it would do harm.",
                "Take `harm` away, or `best`.",
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


def _clients(scope: Scope, exercise: Exercise) -> Iterator[Fault]:
    """Clients who come to a table without an outcome, where nothing else tells why."""
    known: dict[tuple[str | None, ...], str | None] = {}
    names = tuple(scope.course.cases) if exercise.cases == "all" else exercise.cases
    for number, name in enumerate(names):
        if name not in scope.course.cases:
            continue
        keys = _keys(scope, exercise, name)
        outcomes = tuple(keys.values())
        if outcomes not in known:
            known[outcomes] = _stuck(exercise, keys)
        step = known[outcomes]
        table = _table(exercise, step)
        if step is None or scope.ways.waits(scope.course.cases[name], table):
            continue
        yield Fault(
            exercise.origin.at("cases", number) if exercise.cases != "all" else exercise.origin.at("cases"),
            f"exercise:{exercise.name}",
            f"{name} comes to the step `{step}` of {exercise.name}, and {table} has no outcome for them.",
            "Let an earlier step send such clients on, add the readings, or leave this client out.",
        )


def _keys(scope: Scope, exercise: Exercise, case: str) -> dict[str, str | None]:
    """The client's outcome of every table that the exercise decides and the course has."""
    tables = (step.table for step in exercise.steps.values() if isinstance(step, DecideStep))
    decisions = scope.answers.clients[case].decisions
    return {table: decisions[table].outcome for table in tables if table in decisions}


def _stuck(exercise: Exercise, keys: Mapping[str, str | None]) -> str | None:
    """The first step that decides a table without an outcome, for a client with these outcomes."""

    def following(name: str) -> tuple[str, ...]:
        step = exercise.steps.get(name)
        if isinstance(step, DecideStep):
            outcome = keys.get(step.table)
            return (step.go[outcome],) if outcome is not None and outcome in step.go else ()
        return tuple(choice.go for choice in step.choices) if isinstance(step, AskStep) else ()

    for name in reachable(exercise.start, following):
        step = exercise.steps.get(name)
        if isinstance(step, DecideStep) and step.table in keys and keys[step.table] is None:
            return name
    return None


def _table(exercise: Exercise, step: str | None) -> str:
    found = exercise.steps.get(step or "")
    return found.table if isinstance(found, DecideStep) else ""
