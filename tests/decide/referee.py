"""Small random courses, and what holds of them by trying every client one by one.

Written straight from the course format, apart from the builder's own evaluation, so that the two can
disagree.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import product
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from builder.course import (
    AGE,
    About,
    AnyOf,
    AskStep,
    Band,
    Caution,
    Choice,
    ChoiceScale,
    Condition,
    Course,
    DecideStep,
    EndStep,
    Exercise,
    Is,
    Measure,
    NumberScale,
    Outcome,
    Rule,
    Step,
    Table,
    YesNoScale,
)
from builder.source.age import with_age


def for_random_seeds(few: int) -> Callable[[Callable[[int], None]], Callable[[], None]]:
    """Holds a law for `few` seeds, the same in every run; with TRIALS=20 for 20 times as many."""
    tried = few * int(os.environ.get("TRIALS", "1"))

    def held(law: Callable[[int], None]) -> Callable[[], None]:
        return settings(max_examples=tried, derandomize=True, database=None)(
            given(st.integers(0, 2**40))(law)
        )

    return held


OPERATORS = {
    "at_least": lambda value, cut: value >= cut,
    "above": lambda value, cut: value > cut,
    "at_most": lambda value, cut: value <= cut,
    "below": lambda value, cut: value < cut,
}


def random_course(random: Random, clients: int = 150, *, aged: bool = False) -> Course:
    """A course of at most so many different clients, one to three tables, cautions and an exercise; `aged`
    ones may read the age of clients."""
    measures = _measures(random, clients // 6 if aged else clients)
    if aged:
        measures[AGE] = _age(random.randint(0, 40))
    tables: dict[str, Table] = {}
    for number in range(random.choice((1, 2, 2, 3))):
        table = _table(random, f"t{number}", measures, tables)
        tables[table.name] = table
    cautions = {f"c{n}": _caution(random, f"c{n}", measures, tables) for n in range(random.randint(0, 2))}
    exercises = {"e": _exercise(random, tables)} if random.random() < 0.7 else {}
    about = About("random", "Random")
    if aged:
        ages = measures.pop(AGE).scale
        assert isinstance(ages, NumberScale)
        about = About("random", "Random", ages=(int(ages.start), int(ages.stop)))
    return with_age(Course(about, measures, tables=tables, cautions=cautions, exercises=exercises))


def _age(youngest: int) -> Measure:
    """Six ages, as the course format has it."""
    years = NumberScale("years", Fraction(youngest), Fraction(youngest + 5), Fraction(1), Fraction(0))
    return Measure(AGE, "Age", years, of_client=True)


def _measures(random: Random, clients: int) -> dict[str, Measure]:
    measures: dict[str, Measure] = {}
    left = clients
    for number in range(random.randint(1, 4)):
        name = f"m{number}"
        kind = random.choice(("number", "number", "choice", "yes_no"))
        scale: NumberScale | ChoiceScale | YesNoScale
        if kind == "yes_no" or left < 6:
            scale, size = YesNoScale(), 2
        elif kind == "choice":
            size = random.randint(1, 4)
            scale = ChoiceScale({f"v{n}": f"V{n}" for n in range(size)})
        else:
            size = random.randint(1, min(12, left))
            start = Fraction(random.randint(-6, 6), random.choice((1, 2, 3)))
            step = Fraction(random.randint(1, 4), random.choice((1, 2, 10)))
            sem = random.choice((Fraction(0), step * random.randint(1, 9) / 4))
            of = random.choice(("trial", "session"))
            scale = NumberScale("deg", start, start + step * (size - 1), step, sem, of)
        if left // size == 0:
            break
        left //= size
        measures[name] = Measure(name, name.upper(), scale)
    return measures


def _table(random: Random, name: str, measures: Mapping[str, Measure], tables: Mapping[str, Table]) -> Table:
    names = [*measures, *tables]
    inputs = random.sample(names, random.randint(1, min(4, len(names))))
    outcomes = {f"o{n}": Outcome(f"o{n}", f"O{n}") for n in range(random.randint(1, 3))}
    rules = tuple(
        Rule(
            f"r{n}",
            {one: _condition(random, one, measures, tables) for one in inputs if random.random() < 0.6},
            random.choice(list(outcomes)),
        )
        for n in range(random.randint(1, 5))
    )
    return Table(name, "?", random.choice(("unique", "first")), tuple(inputs), outcomes, rules)


def _condition(
    random: Random, name: str, measures: Mapping[str, Measure], tables: Mapping[str, Table]
) -> Condition:
    if name in tables:
        outcomes = list(tables[name].outcomes)
        return AnyOf(tuple(random.sample(outcomes, random.randint(1, len(outcomes)))))
    match measures[name].scale:
        case NumberScale(start=start, stop=stop, step=step):
            size = int((stop - start) / step) + 1
            bounds = random.sample(list(OPERATORS), random.choice((1, 1, 2)))
            return Band({b: start + step * Fraction(random.randint(-2, 2 * size), 2) for b in bounds})
        case ChoiceScale(values=values):
            return AnyOf(tuple(random.sample(list(values), random.randint(1, len(values)))))
        case _:
            return Is(random.random() < 0.5)


def _caution(
    random: Random, name: str, measures: Mapping[str, Measure], tables: Mapping[str, Table]
) -> Caution:
    when = tuple(
        {
            one: _condition(random, one, measures, {})
            for one in random.sample(list(measures), random.randint(1, min(2, len(measures))))
        }
        for _ in range(random.randint(1, 2))
    )
    demands = {
        table: tuple(
            random.sample(list(tables[table].outcomes), random.randint(0, len(tables[table].outcomes)))
        )
        for table in tables
        if random.random() < 0.5
    }
    level = random.choice(("urgent", "refer", "refer", "adapt", "watch"))
    return Caution(name, name, level, when, "", demands)


def _exercise(random: Random, tables: Mapping[str, Table]) -> Exercise:
    names = [f"s{n}" for n in range(random.randint(2, 5))]
    ends: dict[str, Step] = {"on": EndStep("on", sends_on=True), "done": EndStep("done")}
    steps: dict[str, Step] = {}
    for name in names:
        if random.random() < 0.7:
            table = tables[random.choice(list(tables))]
            go = {o: random.choice([*names, *ends]) for o in table.outcomes if random.random() < 0.95}
            steps[name] = DecideStep(table.name, go)
        else:
            ways = [random.choice([*names, *ends]) for _ in range(random.randint(1, 2))]
            steps[name] = AskStep("?", tuple(Choice("say", "reply", go, best=True) for go in ways))
    return Exercise("e", "E", "all", names[0], steps | ends)


@dataclass
class Truth:
    """What holds by trying every client. A client is a tuple of indexes, in the order of the measures."""

    gaps: dict[str, set[tuple[int, ...]]] = field(default_factory=dict)
    overlaps: dict[tuple[str, int, int], set[tuple[int, ...]]] = field(default_factory=dict)
    live: set[tuple[str, int]] = field(default_factory=set)
    breaches: dict[tuple[str, str], set[tuple[int, ...]]] = field(default_factory=dict)
    breach_outcomes: dict[tuple[str, str], set[str]] = field(default_factory=dict)
    leaks: dict[tuple[str, str], set[tuple[int, ...]]] = field(default_factory=dict)
    outcomes: dict[tuple[int, ...], dict[str, str]] = field(default_factory=dict)


def try_everyone(course: Course) -> Truth:
    truth = Truth()
    for client in everyone(course):
        found = dict(zip(course.measures, values(course, client), strict=True))
        outcomes = _decide(course, client, found, truth)
        truth.outcomes[client] = outcomes
        for caution in course.cautions.values():
            if any(matches(when, found) for when in caution.when):
                for table, demanded in caution.demands.items():
                    if table in outcomes and outcomes[table] not in demanded:
                        truth.breaches.setdefault((caution.name, table), set()).add(client)
                        truth.breach_outcomes.setdefault((caution.name, table), set()).add(outcomes[table])
                for exercise in course.exercises.values():
                    if caution.level in ("refer", "urgent") and _can_end(exercise, outcomes):
                        truth.leaks.setdefault((exercise.name, caution.name), set()).add(client)
    return truth


def everyone(course: Course) -> Iterator[tuple[int, ...]]:
    return product(*(range(size(measure)) for measure in course.measures.values()))


def size(measure: Measure) -> int:
    match measure.scale:
        case NumberScale(start=start, stop=stop, step=step):
            return int((stop - start) / step) + 1
        case ChoiceScale(values=values):
            return len(values)
        case _:
            return 2


def values(course: Course, client: tuple[int, ...]) -> list[Fraction | str | bool]:
    values: list[Fraction | str | bool] = []
    for index, measure in zip(client, course.measures.values(), strict=True):
        match measure.scale:
            case NumberScale(start=start, step=step):
                values.append(start + step * index)
            case ChoiceScale(values=names):
                values.append(list(names)[index])
            case _:
                values.append(bool(index))
    return values


def _decide(
    course: Course, client: tuple[int, ...], found: Mapping[str, Fraction | str | bool], truth: Truth
) -> dict[str, str]:
    known = dict(found)
    outcomes = {}
    for table in course.tables.values():
        if not all(name in known for name in table.inputs):
            continue
        matching = [n for n, rule in enumerate(table.rules) if matches(rule.when, known)]
        if table.policy == "first":
            matching = matching[:1]
        truth.live |= {(table.name, n) for n in matching}
        if not matching:
            truth.gaps.setdefault(table.name, set()).add(client)
        for later in matching[1:]:
            for upper in matching[: matching.index(later)]:
                truth.overlaps.setdefault((table.name, upper, later), set()).add(client)
        if len(matching) == 1:
            known[table.name] = outcomes[table.name] = table.rules[matching[0]].then
    return outcomes


def matches(when: Mapping[str, Condition], found: Mapping[str, Fraction | str | bool]) -> bool:
    return all(name in found and _holds(condition, found[name]) for name, condition in when.items())


def _holds(condition: Condition, value: Fraction | str | bool) -> bool:
    match condition:
        case Band(bounds=bounds):
            return all(OPERATORS[bound](value, cut) for bound, cut in bounds.items())
        case AnyOf(names=names):
            return value in names
        case Is(answer=answer):
            return value == answer


def _can_end(exercise: Exercise, outcomes: Mapping[str, str]) -> bool:
    waiting, seen = [exercise.start], set()
    while waiting:
        name = waiting.pop()
        if name in seen:
            continue
        seen.add(name)
        match exercise.steps.get(name):
            case EndStep(sends_on=False):
                return True
            case DecideStep(table=table, go=go):
                waiting += [go[outcomes[table]]] if outcomes.get(table) in go else []
            case AskStep(choices=choices):
                waiting += [choice.go for choice in choices]
    return False


def reads(course: Course, table: str) -> set[str]:
    """The measures that a table reads, by itself or through others."""
    inputs = course.tables[table].inputs
    return {one for name in inputs for one in (reads(course, name) if name in course.tables else {name})}
