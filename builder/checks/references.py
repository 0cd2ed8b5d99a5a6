"""Every name in a course that points at something else, and what it may point at."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from builder.course import (
    AGE,
    RESERVED_SOURCES,
    AnyOf,
    AskStep,
    Case,
    Caution,
    ChoiceScale,
    Course,
    DecideStep,
    Drill,
    Exercise,
    Family,
    Key,
    Measure,
    NumberScale,
    Origin,
    Place,
    Question,
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
    yield from _Of(course, course.about.origin, f"course:{course.about.name}").each(
        "table", course.about.pathway, "pathway"
    )
    for one in course.about.practice.plausible if course.about.practice else ():
        of = _Of(course, one.origin, f"course:{course.about.name}")
        yield from of.when(one.never, course.measures, "measure", "never")
    for measure in _measured(course).values():
        yield from _measure(course, measure)
    for table in course.tables.values():
        yield from _table(course, table)
    for caution in course.cautions.values():
        yield from _caution(course, caution)
    for case in course.cases.values():
        yield from _case(course, case)
    for position in course.positions.values():
        of = _Of(course, position.origin, f"position:{position.name}")
        yield from of.one("source", position.source, "source")
    for drill in course.drills.values():
        yield from _drill(course, drill)
    for exercise in course.exercises.values():
        yield from _exercise(course, exercise)
    for question in course.questions.values():
        yield from _question(course, question)
    for quiz in course.quizzes.values():
        of = _Of(course, quiz.origin, f"quiz:{quiz.name}")
        yield from of.each("question", quiz.questions, "questions")
        for number, row in enumerate(quiz.blueprint):
            yield from of.one("objective", row.objective, "blueprint", number, "objective")
        for number, group in enumerate(quiz.never_with):
            yield from of.each("question", group, "never_with", number)
        for number, must in enumerate(quiz.must_include):
            yield from of.one("objective", must.objective, "must_include", number, "objective")


def _measured(course: Course) -> Mapping[str, Measure]:
    """What can be measured; a client's age is read without."""
    return {name: measure for name, measure in course.measures.items() if not measure.of_client}


_KNOWN: Mapping[str, Callable[[Course], Collection[str]]] = {
    "caution": lambda course: course.cautions,
    "client": lambda course: course.cases,
    "drill": lambda course: course.drills,
    "lesson": lambda course: [lesson.file for lesson in course.lessons],
    "measure": lambda course: _measured(course),
    "measure or table": lambda course: [*course.measures, *course.tables],
    "objective": lambda course: course.objectives,
    "position": lambda course: course.positions,
    "question": lambda course: course.questions,
    "source": lambda course: [*course.sources, *RESERVED_SOURCES],
    "table": lambda course: course.tables,
}
"""What there is of each kind of thing that the whole course shares."""


@dataclass(frozen=True, slots=True)
class _Of:
    """What one thing of the course names. `keys` lead from it to the name."""

    course: Course
    origin: Origin
    subject: str

    def said(self, name: str, what: str, choices: Collection[str], *keys: Key, hint: str = "") -> Mention:
        return Mention(name, what, choices, self.origin.below(*keys), self.subject, hint)

    def one(self, what: str, name: str | None, *keys: Key) -> Iterator[Mention]:
        if name is not None:
            yield self.said(name, what, _KNOWN[what](self.course), *keys)

    def each(self, what: str, names: Iterable[str], *keys: Key) -> Iterator[Mention]:
        for number, name in enumerate(names):
            yield from self.one(what, name, *keys, number)

    def outcome(self, table: str, name: str, *keys: Key) -> Iterator[Mention]:
        if table in self.course.tables:
            yield self.said(name, f"outcome of {table}", self.course.tables[table].outcomes, *keys)

    def one_outcome(self, named: Mapping[str, str], *keys: Key) -> Iterator[Mention]:
        """Tables with one outcome of each."""
        for table, outcome in named.items():
            yield from self.one("table", table, *keys, table)
            yield from self.outcome(table, outcome, *keys, table)

    def outcomes(self, named: Mapping[str, Iterable[str]], *keys: Key) -> Iterator[Mention]:
        """Tables with some outcomes of each."""
        for table, outcomes in named.items():
            yield from self.one("table", table, *keys, table)
            for number, outcome in enumerate(outcomes):
                yield from self.outcome(table, outcome, *keys, table, number)

    def when(self, when: When, inputs: Collection[str], what: str, *keys: Key) -> Iterator[Mention]:
        """The inputs that conditions are about, and the values that they ask for."""
        for name, condition in when.items():
            measure = self.course.measures.get(name)
            known = what.startswith("input") and (measure is not None or name in self.course.tables)
            hint = f"Add `{name}` to the table's `inputs`." if known else ""
            yield self.said(name, what, inputs, *keys, name, hint=hint)
            for number, value in enumerate(condition.names if isinstance(condition, AnyOf) else ()):
                if measure is None:
                    yield from self.outcome(name, value, *keys, name, number)
                elif isinstance(measure.scale, ChoiceScale):
                    yield self.said(value, f"value of {name}", measure.scale.values, *keys, name, number)

    def readings(self, readings: Mapping[str, Reading], *keys: Key) -> Iterator[Mention]:
        measured, origin = _measured(self.course), self.origin.below(*keys)
        if AGE in self.course.measures and AGE not in measured and origin.holds(AGE):
            hint = "Write the age of a client as `age` under `client`."
            yield self.said(AGE, "measure", measured, *keys, AGE, hint=hint)
        for name, reading in readings.items():
            if name == AGE and name not in measured:
                continue
            yield from self.one("measure", name, *keys, name)
            scale = self.course.measures[name].scale if name in self.course.measures else None
            if isinstance(scale, ChoiceScale) and isinstance(reading.finding, str):
                yield self.said(reading.finding, f"value of {name}", scale.values, *keys, name)


def _measure(course: Course, measure: Measure) -> Iterator[Mention]:
    of = _Of(course, measure.origin, f"measure:{measure.name}")
    yield from of.one("lesson", measure.how, "how")
    yield from of.one("measure", measure.taken_with, "taken_with")
    yield from of.one("source", measure.source, "source")
    if isinstance(measure.scale, NumberScale):
        yield from of.one("source", measure.scale.sem_source, "sem_source")
        if measure.scale.drawn is not None:
            yield from of.one("position", measure.scale.drawn.position, "drawn", "position")
        for number, band in enumerate(measure.scale.reference):
            yield from of.one("source", band.source, "reference", number, "source")


def _table(course: Course, table: Table) -> Iterator[Mention]:
    of = _Of(course, table.origin, f"table:{table.name}")
    yield from of.each("measure or table", table.inputs, "inputs")
    yield from of.one("source", table.source, "source")
    # Rules name an input rightly that is misspelt in the list alone.
    inputs = (*table.inputs, *meant(table.inputs, [*course.measures, *course.tables]))
    for rule in table.rules:
        of_rule = _Of(course, rule.origin, f"rule:{table.name}/{rule.id}")
        yield from of_rule.when(rule.when, inputs, f"input of {table.name}", "when")
        yield from of_rule.outcome(table.name, rule.then, "then")
        yield from of_rule.one("source", rule.source, "source")
    for confusion in table.confusions:
        of_confusion = _Of(course, confusion.origin, of.subject)
        yield from of_confusion.outcome(table.name, confusion.answered, "answered")
        yield from of_confusion.outcome(table.name, confusion.right, "right")


def _caution(course: Course, caution: Caution) -> Iterator[Mention]:
    of = _Of(course, caution.origin, f"caution:{caution.name}")
    for number, when in enumerate(caution.when):
        yield from of.when(when, course.measures, "measure", "when", number)
    yield from of.outcomes(caution.demands, "demands")
    yield from of.outcomes(caution.applies_to, "applies_to")
    yield from of.one("source", caution.source, "source")


def _case(course: Course, case: Case) -> Iterator[Mention]:
    of = _Of(course, case.origin, f"case:{case.name}")
    yield from of.readings(case.readings, "readings")
    if case.retest is not None:
        yield from of.readings(case.retest.readings, "retest", "readings")
    yield from of.one_outcome(case.expect, "expect")
    yield from of.each("measure", case.near_cut, "near_cut")
    for name in case.said:
        yield from of.one("measure", name, "said", name)
    yield from of.each("measure", case.told, "told")
    yield from of.each("objective", case.objectives, "objectives")


def _drill(course: Course, drill: Drill) -> Iterator[Mention]:
    of = _Of(course, drill.origin, f"drill:{drill.name}")
    yield from of.one("position", drill.position, "position")
    yield from of.outcomes(drill.leads_here, "for")
    if drill.breath is not None:
        yield from of.outcomes(drill.breath.pause_for, "breath", "pause_for")
    for number, one in enumerate(drill.cautions):
        yield from of.one("caution", one.caution, "cautions", number, "caution")
    for fault in (fault for phase in drill.phases for fault in phase.faults):
        yield from _Of(course, fault.origin, of.subject).one("caution", fault.caution, "caution")
    yield from of.each("objective", drill.objectives, "objectives")
    yield from of.one("source", drill.source, "source")


def _exercise(course: Course, exercise: Exercise) -> Iterator[Mention]:
    of, steps = _Of(course, exercise.origin, f"exercise:{exercise.name}"), exercise.steps
    what = f"step of {exercise.name}"
    yield from of.each("client", () if exercise.cases == "all" else exercise.cases, "cases")
    yield from of.each("objective", exercise.objectives, "objectives")
    yield of.said(exercise.start, what, steps, "start")
    for step in steps.values():
        at = _Of(course, step.origin, of.subject)
        if isinstance(step, DecideStep):
            yield from at.one("table", step.table, "decide")
            for outcome, go in step.go.items():
                yield from at.outcome(step.table, outcome, "go", outcome)
                yield at.said(go, what, steps, "go", outcome)
        elif isinstance(step, AskStep):
            yield from at.one("objective", step.objective, "objective")
            for number, choice in enumerate(step.choices):
                yield at.said(choice.go, what, steps, "choices", number, "go")
                yield from at.one("caution", choice.caution, "choices", number, "caution")
                yield from at.one_outcome(choice.means, "choices", number, "means")


def _question(course: Course, question: Question | Family) -> Iterator[Mention]:
    of = _Of(course, question.origin, f"question:{question.id}")
    yield from of.one("objective", question.objective, "objective")
    if not isinstance(question, Family):
        yield from of.one("source", question.source, "source")
        yield from of.one("client", question.case, "case")
        for number, option in enumerate(question.options):
            yield from of.one_outcome(option.means, "options", number, "means")
    elif question.drill is not None:
        yield from of.one("drill", question.drill, "drill")
    else:
        yield from of.one("table", question.table or None, "table")
        yield from of.one("measure", question.measure, "measure")
        yield from of.each("client", question.cases if isinstance(question.cases, tuple) else (), "cases")
