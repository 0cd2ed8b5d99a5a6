"""Every name in a course that points at something else, and what it may point at."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from functools import partial

from builder.course import (
    AGE,
    RESERVED_SOURCES,
    AnyOf,
    AskStep,
    Case,
    Caution,
    ChoiceScale,
    Condition,
    Course,
    DecideStep,
    Drill,
    Exercise,
    Family,
    Measure,
    NumberScale,
    Origin,
    Place,
    Question,
    Quiz,
    Reading,
    Table,
    When,
)

from .scope import meant


@dataclass(frozen=True, slots=True)
class Mention:
    name: str
    what: str
    """What the name should be one of, for example `outcome of ankle_class`."""
    choices: Collection[str]
    where: Origin
    subject: str
    hint: str = ""
    """What to do, where the nearest name would not help."""

    @property
    def place(self) -> Place:
        """Worked out only when asked for: nearly every reference is good."""
        return self.where.at()


def references(course: Course) -> Iterator[Mention]:
    """Every reference in the course, good or not."""
    yield from _about(course)
    for measure in _measured(course).values():
        yield from _measure(course, measure)
    for table in course.tables.values():
        yield from _table(course, table)
    for caution in course.cautions.values():
        yield from _caution(course, caution)
    for case in course.cases.values():
        yield from _case(course, case)
    for position in course.positions.values():
        yield from _source(course, position.source, position.origin, f"position:{position.name}")
    for drill in course.drills.values():
        yield from _drill(course, drill)
    for exercise in course.exercises.values():
        yield from _exercise(course, exercise)
    for question in course.questions.values():
        yield from _question(course, question)
    for quiz in course.quizzes.values():
        yield from _quiz(course, quiz)


def _about(course: Course) -> Iterator[Mention]:
    for number, table in enumerate(course.about.pathway):
        where = course.about.origin.below("pathway", number)
        yield Mention(table, "table", course.tables, where, f"course:{course.about.name}")


def _measure(course: Course, measure: Measure) -> Iterator[Mention]:
    at, subject = measure.origin.below, f"measure:{measure.name}"
    if measure.how is not None:
        lessons = [lesson.file for lesson in course.lessons]
        yield Mention(measure.how, "lesson", lessons, at("how"), subject)
    yield from _source(course, measure.source, measure.origin, subject)
    if isinstance(measure.scale, NumberScale):
        yield from _source(course, measure.scale.sem_source, measure.origin, subject, "sem_source")
        for number, band in enumerate(measure.scale.reference):
            yield from _source(course, band.source, measure.origin.below("reference", number), subject)


def _table(course: Course, table: Table) -> Iterator[Mention]:
    at, subject = table.origin.below, f"table:{table.name}"
    both = [*course.measures, *course.tables]
    for number, name in enumerate(table.inputs):
        yield Mention(name, "measure or table", both, at("inputs", number), subject)
    yield from _source(course, table.source, table.origin, subject)
    outcome_of = partial(Mention, what=f"outcome of {table.name}", choices=table.outcomes)
    # Rules name an input rightly that is misspelt in the list alone.
    inputs = (*table.inputs, *meant(table.inputs, both))
    for rule in table.rules:
        subject = f"rule:{table.name}/{rule.id}"
        yield from _when(
            course, rule.when, rule.origin.below("when"), subject, inputs, f"input of {table.name}"
        )
        yield outcome_of(rule.then, where=rule.origin.below("then"), subject=subject)
        yield from _source(course, rule.source, rule.origin, subject)
    for confusion in table.confusions:
        for key, name in (("answered", confusion.answered), ("right", confusion.right)):
            yield outcome_of(name, where=confusion.origin.below(key), subject=f"table:{table.name}")


def _caution(course: Course, caution: Caution) -> Iterator[Mention]:
    subject = f"caution:{caution.name}"
    for number, when in enumerate(caution.when):
        origin = caution.origin.below("when", number)
        yield from _when(course, when, origin, subject, course.measures, "measure")
    for key, named in (("demands", caution.demands), ("applies_to", caution.applies_to)):
        yield from _outcome_lists(course, named, caution.origin.below(key), subject)
    yield from _source(course, caution.source, caution.origin, subject)


def _case(course: Course, case: Case) -> Iterator[Mention]:
    at, subject = case.origin.below, f"case:{case.name}"
    yield from _readings(course, case.readings, case.origin.below("readings"), subject)
    if case.retest is not None:
        origin = case.origin.below("retest", "readings")
        yield from _readings(course, case.retest.readings, origin, subject)
    for table, outcome in case.expect.items():
        yield Mention(table, "table", course.tables, at("expect", table), subject)
        if table in course.tables:
            outcomes = course.tables[table].outcomes
            yield Mention(outcome, f"outcome of {table}", outcomes, at("expect", table), subject)
    for number, name in enumerate(case.near_cut):
        yield Mention(name, "measure", _measured(course), at("near_cut", number), subject)
    yield from _objectives(course, case.objectives, case.origin, subject)


def _drill(course: Course, drill: Drill) -> Iterator[Mention]:
    at, subject = drill.origin.below, f"drill:{drill.name}"
    if drill.position is not None:
        yield Mention(drill.position, "position", course.positions, at("position"), subject)
    yield from _outcome_lists(course, drill.leads_here, drill.origin.below("for"), subject)
    if drill.breath is not None:
        pauses = drill.origin.below("breath", "pause_for")
        yield from _outcome_lists(course, drill.breath.pause_for, pauses, subject)
    for number, one in enumerate(drill.cautions):
        where = at("cautions", number, "caution")
        yield Mention(one.caution, "caution", course.cautions, where, subject)
    for fault in (fault for phase in drill.phases for fault in phase.faults):
        if fault.caution is not None:
            where = fault.origin.below("caution")
            yield Mention(fault.caution, "caution", course.cautions, where, subject)
    yield from _objectives(course, drill.objectives, drill.origin, subject)
    yield from _source(course, drill.source, drill.origin, subject)


def _exercise(course: Course, exercise: Exercise) -> Iterator[Mention]:
    at, subject = exercise.origin.below, f"exercise:{exercise.name}"
    step_of = partial(Mention, what=f"step of {exercise.name}", choices=exercise.steps, subject=subject)
    yield from _cases(course, exercise.cases, exercise.origin, subject)
    yield from _objectives(course, exercise.objectives, exercise.origin, subject)
    yield step_of(exercise.start, where=at("start"))
    for step in exercise.steps.values():
        at = step.origin.below
        if isinstance(step, DecideStep):
            yield Mention(step.table, "table", course.tables, at("decide"), subject)
            for outcome, go in step.go.items():
                if step.table in course.tables:
                    outcomes = course.tables[step.table].outcomes
                    yield Mention(outcome, f"outcome of {step.table}", outcomes, at("go", outcome), subject)
                yield step_of(go, where=at("go", outcome))
        elif isinstance(step, AskStep):
            if step.objective is not None:
                yield Mention(step.objective, "objective", course.objectives, at("objective"), subject)
            for number, choice in enumerate(step.choices):
                yield step_of(choice.go, where=at("choices", number, "go"))
                if choice.caution is not None:
                    where = at("choices", number, "caution")
                    yield Mention(choice.caution, "caution", course.cautions, where, subject)


def _question(course: Course, question: Question | Family) -> Iterator[Mention]:
    at, subject = question.origin.below, f"question:{question.id}"
    yield Mention(question.objective, "objective", course.objectives, at("objective"), subject)
    if isinstance(question, Family) and question.drill is not None:
        yield Mention(question.drill, "drill", course.drills, at("drill"), subject)
    elif isinstance(question, Family):
        yield Mention(question.table, "table", course.tables, at("table"), subject)
        yield from _cases(course, question.cases, question.origin, subject)
    else:
        yield from _source(course, question.source, question.origin, subject)


def _quiz(course: Course, quiz: Quiz) -> Iterator[Mention]:
    at, subject = quiz.origin.below, f"quiz:{quiz.name}"
    for number, name in enumerate(quiz.questions):
        yield Mention(name, "question", course.questions, at("questions", number), subject)
    for number, row in enumerate(quiz.blueprint):
        where = at("blueprint", number, "objective")
        yield Mention(row.objective, "objective", course.objectives, where, subject)


def _when(
    course: Course, when: When, origin: Origin, subject: str, inputs: Collection[str], what: str
) -> Iterator[Mention]:
    """The inputs that conditions are about, and the values that they ask for."""
    for name, condition in when.items():
        known = what.startswith("input") and (name in course.measures or name in course.tables)
        hint = f"Add `{name}` to the table's `inputs`." if known else ""
        yield Mention(name, what, inputs, origin.below(name), subject, hint)
        for number, value, of, values in _values(course, name, condition):
            yield Mention(value, of, values, origin.below(name, number), subject)


def _values(
    course: Course, name: str, condition: Condition
) -> Iterator[tuple[int, str, str, Collection[str]]]:
    if not isinstance(condition, AnyOf):
        return
    measure, table = course.measures.get(name), course.tables.get(name)
    for number, value in enumerate(condition.names):
        if measure is not None and isinstance(measure.scale, ChoiceScale):
            yield number, value, f"value of {name}", measure.scale.values
        elif measure is None and table is not None:
            yield number, value, f"outcome of {name}", table.outcomes


def _readings(
    course: Course, readings: Mapping[str, Reading], origin: Origin, subject: str
) -> Iterator[Mention]:
    measured = _measured(course)
    if AGE in course.measures and AGE not in measured and origin.holds(AGE):
        hint = "Write the age of a client as `age` under `client`."
        yield Mention(AGE, "measure", measured, origin.below(AGE), subject, hint)
    for name, reading in readings.items():
        if name == AGE and name not in measured:
            continue
        yield Mention(name, "measure", measured, origin.below(name), subject)
        scale = course.measures[name].scale if name in course.measures else None
        if isinstance(scale, ChoiceScale) and isinstance(reading.finding, str):
            yield Mention(reading.finding, f"value of {name}", scale.values, origin.below(name), subject)


def _measured(course: Course) -> dict[str, Measure]:
    """What can be measured; a client's age is read without."""
    return {name: measure for name, measure in course.measures.items() if not measure.of_client}


def _outcome_lists(
    course: Course, named: Mapping[str, tuple[str, ...]], origin: Origin, subject: str
) -> Iterator[Mention]:
    for table, outcomes in named.items():
        yield Mention(table, "table", course.tables, origin.below(table), subject)
        if table in course.tables:
            for number, outcome in enumerate(outcomes):
                known = course.tables[table].outcomes
                yield Mention(outcome, f"outcome of {table}", known, origin.below(table, number), subject)


def _source(
    course: Course, source: str | None, origin: Origin, subject: str, key: str = "source"
) -> Iterator[Mention]:
    if source is not None:
        known = [*course.sources, *RESERVED_SOURCES]
        yield Mention(source, "source", known, origin.below(key), subject)


def _objectives(
    course: Course, objectives: tuple[str, ...], origin: Origin, subject: str
) -> Iterator[Mention]:
    for number, name in enumerate(objectives):
        where = origin.below("objectives", number)
        yield Mention(name, "objective", course.objectives, where, subject)


def _cases(course: Course, cases: str | tuple[str, ...], origin: Origin, subject: str) -> Iterator[Mention]:
    if not isinstance(cases, str):
        for number, name in enumerate(cases):
            yield Mention(name, "client", course.cases, origin.below("cases", number), subject)
