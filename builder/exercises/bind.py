"""Binds a decision tree to one client."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Protocol

from builder.course import (
    SENDS_ON,
    AskStep,
    Case,
    Caution,
    Choice,
    Course,
    DecideStep,
    EndStep,
    Exercise,
    Family,
    Harm,
    Table,
)
from builder.decide.evaluate import Decision
from builder.decide.harm import ActedOn
from builder.decide.pathway import order
from builder.questions.item import option_id
from builder.questions.units import rule_unit, stopping
from builder.words import ENGLISH, Words

from .graph import reachable, shortest
from .walk import Walk, WalkOption, WalkStep


class Harms(Protocol):
    """Judges a client's answers by what acting on them would have come to."""

    @property
    def acted_on(self) -> Mapping[str, Mapping[str, ActedOn]]:
        """Table to every outcome but the key."""

    def judged(self, means: Mapping[str, str], written: Harm) -> ActedOn:
        """A written answer: the outcomes that it comes to, and what is written of its harm."""


PATHWAY = "pathway"
"""The name of the walk over every table that a client gets whom no exercise lists."""


def pathway_exercise(course: Course, words: Words = ENGLISH) -> Exercise:
    """Every table in pathway order, up to the first outcome that sends the client on."""
    tables = order(course)
    sent_on = _unused("sent-on", tables)
    done = _unused("done", tables)
    steps: dict[str, DecideStep | AskStep | EndStep] = {}
    for name, following in pairwise((*tables, done)):
        outcomes = course.tables[name].outcomes
        steps[name] = DecideStep(name, {o.name: sent_on if o.ends else following for o in outcomes.values()})
    steps[sent_on] = EndStep(words.say("The client is referred."), sends_on=True)
    steps[done] = EndStep(words.say("Every decision about this client is made."))
    return Exercise(PATHWAY, words.say("Every decision"), "all", tables[0] if tables else done, steps)


def bind_walk(
    course: Course,
    exercise: Exercise,
    case: Case,
    decisions: Mapping[str, Decision],
    meets: Sequence[Caution],
    harms: Harms,
    words: Words = ENGLISH,
) -> Walk:
    """The tree of `exercise` as `case` meets it: keys from `decisions` (table to decision), and the cautions
    that the client `meets`, by name, placed where they open. `harms` judges every answer but the best.

    Where the tree cannot go on for this client (a table has no outcome for them, or a way leads to no step)
    the walk ends; nothing is raised.
    """
    bound = _Binder(course, exercise, decisions, harms, words)
    steps: dict[str, WalkStep] = {}

    def following(name: str) -> tuple[str, ...]:
        steps[name] = bound.step(name)
        return _ways(steps[name])

    reachable(exercise.start, following)
    for caution in meets:
        for name in _opening(caution, course, exercise.start, steps):
            steps[name] = _carrying(steps[name], caution.name)
    stopping = tuple(caution.name for caution in meets if caution.level in SENDS_ON)
    if stopping:
        steps = {name: _naming(step, stopping) for name, step in steps.items()}
    for caution in course.cautions.values():
        for name, step in steps.items():
            if step.table and decisions[step.table].outcome in caution.applies_to.get(step.table, ()):
                steps[name] = _carrying(step, caution.name)
    ends = {name for name, step in steps.items() if step.kind == "end"}
    best = shortest(exercise.start, ends, lambda at: _ways(steps[at], best=True))
    is_asked = exercise.readings == "asked"
    return Walk(exercise.name, case.name, exercise.title, exercise.start, steps, best, is_asked)


class _Binder:
    def __init__(
        self,
        course: Course,
        exercise: Exercise,
        decisions: Mapping[str, Decision],
        harms: Harms,
        words: Words,
    ) -> None:
        self._course = course
        self._exercise = exercise
        self._decisions = decisions
        self._harms = harms
        self._words = words

    def step(self, name: str) -> WalkStep:
        step = self._exercise.steps.get(name)
        if isinstance(step, EndStep):
            return WalkStep(name, "end", step.end, sends_on=step.sends_on)
        if isinstance(step, DecideStep):
            return self._decide(name, step)
        if isinstance(step, AskStep) and step.choices:
            learnt = f"step:{self._exercise.name}/{name}"
            return WalkStep(
                name, "ask", step.ask, self._choices(step), objective=step.objective, learnt=learnt
            )
        return self._cut_short(name)

    def _decide(self, name: str, step: DecideStep) -> WalkStep:
        decision = self._decisions.get(step.table)
        key = decision.outcome if decision else None
        go = step.go.get(key) if key else None
        if go is None:
            return self._cut_short(name)
        table, acted = self._course.tables[step.table], self._harms.acted_on[step.table]
        options = tuple(
            _option(outcome.name, outcome.label, outcome.name == key, go, acted.get(outcome.name))
            for outcome in table.outcomes.values()
        )
        return WalkStep(
            name,
            "decide",
            table.question,
            options,
            table.name,
            objective_of(self._course, table),
            learnt=rule_unit(decision) if decision else "",
            stops=stopping(table, key) if key else (),
        )

    def _choices(self, step: AskStep) -> tuple[WalkOption, ...]:
        return tuple(self._choice(option_id(number), choice) for number, choice in enumerate(step.choices))

    def _choice(self, name: str, choice: Choice) -> WalkOption:
        acted = None if choice.best else self._harms.judged(choice.means, choice.harm)
        option = _option(name, choice.say, choice.best, choice.go, acted)
        opens = (choice.caution,) if choice.caution else option.cautions
        return replace(option, reply=choice.reply, cautions=opens)

    def _cut_short(self, name: str) -> WalkStep:
        return WalkStep(name, "end", self._words.say("The course does not say how to go on for this client."))


def objective_of(course: Course, table: Table) -> str | None:
    """What deciding `table` shows: the objective of the first question family that asks for its outcome."""
    for question in course.questions.values():
        if isinstance(question, Family) and question.family == "decision" and question.table == table.name:
            return question.objective
    return None


def _option(name: str, text: str, best: bool, go: str, acted: ActedOn | None) -> WalkOption:
    if acted is None:
        return WalkOption(name, text, best, go)
    return WalkOption(name, text, best, go, acted.told, cautions=tuple(acted.cautions), acted=acted)


def _ways(step: WalkStep, *, best: bool = False) -> tuple[str, ...]:
    return tuple(dict.fromkeys(option.go for option in step.options if option.best or not best))


def _opening(caution: Caution, course: Course, start: str, steps: Mapping[str, WalkStep]) -> Iterable[str]:
    """The steps with which a caution that the client meets opens: on every way, the first that decides it.

    A table decides it that its `demands` names; without one in this walk, a table whose outcome carries it;
    without either in the course, a table that reads one of its measures; else the end. What sends the client
    on waits for no other table: it opens with the first that reads one of its measures. At an end that sends
    the client on, how to train has no place: there only a caution opens that sends on as well.
    """
    measures = {measure for when in caution.when for measure in when}

    def deciding(tables: Iterable[str]) -> set[str]:
        names = set(tables)
        return {name for name, step in steps.items() if step.table in names}

    reading = {table.name for table in course.tables.values() if measures.intersection(table.inputs)}
    named = caution.demands or caution.applies_to
    waits = named and caution.level not in SENDS_ON
    deciders = deciding(caution.demands) or deciding(caution.applies_to if waits else reading)
    seen = reachable(start, lambda at: () if at in deciders else _ways(steps[at]))
    ends = {
        name
        for name, step in steps.items()
        if step.kind == "end" and (caution.level in SENDS_ON or not step.sends_on)
    }
    return [name for name in seen if name in deciders or name in ends]


def _carrying(step: WalkStep, caution: str) -> WalkStep:
    return step if caution in step.cautions else replace(step, cautions=(*step.cautions, caution))


def _naming(step: WalkStep, stopping: tuple[str, ...]) -> WalkStep:
    """A serious harm that names no caution opens those that should have stopped this client."""
    options = tuple(
        replace(option, cautions=stopping) if option.harm == "serious" and not option.cautions else option
        for option in step.options
    )
    return replace(step, options=options)


def _unused(name: str, taken: Iterable[str]) -> str:
    names = set(taken)
    while name in names:
        name += "-"
    return name
