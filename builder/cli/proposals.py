"""Valid beginnings for new parts of a course, made of what the course has, and tried with the checks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations

from builder.answers import Answers
from builder.checks import CHECKS, Scope
from builder.course import (
    SENDS_ON,
    AnyOf,
    AskStep,
    Band,
    Case,
    Choice,
    ChoiceScale,
    Client,
    Condition,
    Course,
    DecideStep,
    EndStep,
    Exercise,
    Is,
    Measure,
    NumberScale,
    Outcome,
    Reading,
    Rule,
    Step,
    Table,
)
from builder.decide.evaluate import met
from builder.decide.found import find
from builder.decide.grid import Value, size, value
from builder.decide.pathway import order
from builder.decide.space import Space

_PAIRS_TRIED = 400


@dataclass(frozen=True, slots=True)
class Halves:
    """A measure split in two by conditions that exclude each other and leave nobody out."""

    measure: Measure
    one: Condition
    other: Condition


def client(course: Course, name: str) -> Case:
    """A client with a reading of every measure: if there is one, far from every line and meeting no caution
    that sends on; else the first that is merely valid; else one near a line, who says so."""
    alone = replace(course, cases={}, exercises={}, quizzes={}, questions={})
    fallback: Case | None = None
    for readings in _readings(course):
        case = Case(name, _client(course, name, readings), readings)
        tried = replace(alone, cases={name: case})
        if not _faulty(tried, f"case:{name}", "reading-missing", "near-cut", "caution-near"):
            if not any(caution.level in SENDS_ON for caution in met(course, find(course, readings))):
                return case
            fallback = fallback or case
    if fallback is not None:
        return fallback
    numbers = tuple(
        name
        for name, measure in course.measures.items()
        if isinstance(measure.scale, NumberScale) and not measure.of_client
    )
    readings = next(_readings(course))
    return Case(name, _client(course, name, readings), readings, near_cut=numbers)


def _client(course: Course, name: str, readings: Mapping[str, Reading]) -> Client:
    """Someone of the age that is among the readings, else of one that the course is for."""
    youngest, oldest = course.about.ages
    read = [one.trials[0] for at, one in readings.items() if course.measures[at].of_client]
    return Client(name.capitalize(), int(*read) if read else max(youngest, min(40, oldest)))


def table(course: Course, name: str) -> Table:
    """A table over one measure that every client has, or over none."""
    pathway = (*course.about.pathway, name) if course.about.pathway else ()
    for halves in splits(course):
        proposed = _table(name, halves)
        tried = replace(
            course,
            about=replace(course.about, pathway=pathway),
            tables={**course.tables, name: proposed},
            exercises={},
        )
        if not _faulty(tried, "", "reading-missing") and not _nearer(course, tried, name):
            return proposed
    return _table(name, None)


def splits(course: Course) -> Iterator[Halves]:
    """Ways to split a measure that every client has a reading of: findings first, then numbers."""
    read = [
        measure
        for measure in course.measures.values()
        if all(measure.name in case.readings for case in course.cases.values()) and size(measure) > 1
    ]
    for measure in sorted(read, key=lambda one: isinstance(one.scale, NumberScale)):
        match measure.scale:
            case NumberScale() as scale:
                for part in (2, 4, 8):
                    cut = scale.start + scale.step * max(1, size(measure) // part)
                    yield Halves(measure, Band({"below": cut}), Band({"at_least": cut}))
            case ChoiceScale(values=values):
                *others, last = values
                yield Halves(measure, AnyOf((last,)), AnyOf(tuple(others)))
            case _:
                yield Halves(measure, Is(True), Is(False))


def exercise(course: Course, name: str) -> Exercise:
    """An exercise that nobody who must be sent on can end without it."""
    proposals = [
        _exercise(course, name, table, kind) for table in order(course)[:1] for kind in (False, True)
    ]
    for proposed in [*proposals, _exercise(course, name, None, False)]:
        tried = replace(course, exercises={name: proposed}, cases={}, questions={}, quizzes={})
        if not _faulty(tried, f"exercise:{name}", "referral-leak", "exercise-broken"):
            return proposed
    return _exercise(course, name, None, True)


def _faulty(course: Course, subject: str, *codes: str) -> bool:
    """Whether some of these checks find a fault of a subject, or any fault where no subject is given."""
    scope = Scope(Answers(course))
    return any(not subject or fault.subject == subject for code in codes for fault in CHECKS[code](scope))


def _nearer(course: Course, tried: Course, table: str) -> bool:
    """Whether a new table puts some client near a line who was near none."""
    before, after = (
        {(fault.subject, fault.message) for fault in CHECKS["near-cut"](Scope(Answers(one)))}
        for one in (course, tried)
    )
    return bool(after - before)


def _readings(course: Course) -> Iterator[dict[str, Reading]]:
    """Readings of every measure: the most ordinary first, then with one and with two of them changed."""
    space = Space(course)
    options = {name: _options(measure, space) for name, measure in course.measures.items()}
    base = {name: values[0] for name, values in options.items()}
    yield _read(base)
    changes = [(name, value) for name, values in options.items() for value in values[1:]]
    for name, changed in changes:
        yield _read({**base, name: changed})
    for number, ((one, first), (other, second)) in enumerate(combinations(changes, 2)):
        if number == _PAIRS_TRIED:
            return
        if one != other:
            yield _read({**base, one: first, other: second})


def _options(measure: Measure, space: Space) -> Sequence[Value]:
    """Values worth trying: the middle of every run that no rule tells apart, the longest run first."""
    if not isinstance(measure.scale, NumberScale):
        return [value(measure, index) for index in range(size(measure))]
    cells = space.axes[measure.name].cells if measure.name in space.axes else (range(size(measure)),)
    runs = sorted(cells, key=len, reverse=True)
    return [value(measure, run[len(run) // 2]) for run in runs]


def _read(values: Mapping[str, Value]) -> dict[str, Reading]:
    return {
        name: Reading((found,)) if isinstance(found, Fraction) else Reading(finding=found)
        for name, found in values.items()
    }


def _table(name: str, halves: Halves | None) -> Table:
    outcomes = {"first": Outcome("first", "First outcome"), "second": Outcome("second", "Second outcome")}
    if halves is None:
        rules: tuple[Rule, ...] = (Rule("everyone", {}, "first"),)
        return Table(name, "", "first", (), {"first": outcomes["first"]}, rules)
    measure = halves.measure.name
    rules = (Rule("one", {measure: halves.one}, "first"), Rule("other", {measure: halves.other}, "second"))
    return Table(name, "", "unique", (measure,), outcomes, rules)


def _exercise(course: Course, name: str, table: str | None, sends_on: bool) -> Exercise:
    steps: dict[str, Step] = {}
    if table is not None:
        outcomes = course.tables[table].outcomes.values()
        steps["decide"] = DecideStep(table, {o.name: "sent_on" if o.ends else "act" for o in outcomes})
    best = Choice("The best thing to do here", "What happens then.", "done", best=True)
    worse = Choice("Something less good", "What happens then.", "act", harm="minor")
    steps["act"] = AskStep("What do you do now?", (best, worse))
    steps["done"] = EndStep("How the visit ends", sends_on=sends_on)
    if table is not None and any(outcome.ends for outcome in course.tables[table].outcomes.values()):
        steps["sent_on"] = EndStep("The client is referred", sends_on=True)
    return Exercise(name, name.capitalize(), "all", next(iter(steps)), steps)
