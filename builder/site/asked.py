"""A walk whose readings stay closed until they are asked for, as the browser's `asking.js` reads it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Any

from builder.answers import Answers
from builder.answers.client import ClientAnswers
from builder.course import ChoiceScale, Measure, first_taken
from builder.decide.asking import Asking, Twin
from builder.exercises.walk import Walk
from builder.words.sentences import found, outcome_label


def ask_block(answers: Answers, walk: Walk) -> dict[str, Any]:
    """What can be asked, what of it the story tells, the least minutes, and for each step that decides what
    must have been asked. Measures go by their number."""
    course, client = answers.course, answers.of(answers.course.cases[walk.case])
    measures = [one for one in course.measures.values() if not one.of_client]
    numbers = {one.name: at for at, one in enumerate(measures)}
    firsts = {one.name: first_taken(course.measures, one.name) for one in measures}
    goes: dict[str, list[int]] = defaultdict(list)
    for one in measures:
        goes[firsts[one.name]].append(numbers[one.name])
    least = client.least_minutes(walk.exercise)
    return {
        "measures": [_measure(answers, client, one, goes[firsts[one.name]]) for one in measures],
        "told": sorted(numbers[name] for name in client.case.told),
        "least": None if least is None else _plain(least),
        "steps": {
            name: _step(answers, asking, numbers, step.table)
            for name, step in walk.steps.items()
            if step.table and (asking := client.asking[step.table])
        },
    }


def _measure(
    answers: Answers, client: ClientAnswers, measure: Measure, together: Sequence[int]
) -> dict[str, Any]:
    """`together` are all that are read in one go, itself among them."""
    data: dict[str, Any] = {
        "name": measure.name,
        "label": measure.label,
        "how": measure.finding,
        "minutes": _plain(measure.takes),
    }
    if len(together) > 1:
        data["together"] = together
    if measure.name in client.case.said:
        values = measure.scale.values if isinstance(measure.scale, ChoiceScale) else (True, False)
        here = client.found.values[measure.name]
        data["key"] = [str(value) for value in values].index(str(here))
        data["values"] = [
            [
                found(answers.words, answers.course, measure.name, value),
                "none" if value == here else client.misheard(measure.name, value).told,
            ]
            for value in values
        ]
    return data


def _step(answers: Answers, asking: Asking, numbers: dict[str, int], table: str) -> dict[str, Any]:
    def sets(named: Iterable[Iterable[str]]) -> list[list[int]]:
        return [[numbers[name] for name in one] for one in named]

    return {
        "differing": sets(asking.differing),
        "going_on": sets(asking.going_on),
        "twins": {
            outcome: [_twin(answers, twin, numbers, table) for twin in twins]
            for outcome, twins in asking.twins.items()
            if twins
        },
    }


def _twin(answers: Answers, twin: Twin, numbers: dict[str, int], table: str) -> dict[str, Any]:
    words, course = answers.words, answers.course
    return {
        "apart": [numbers[name] for name in twin.change],
        "change": [
            [course.measures[name].label, found(words, course, name, to)]
            for name, (_, to) in twin.change.items()
        ],
        "right": outcome_label(course, table, twin.outcome) if twin.outcome else "",
    }


def _plain(number: Fraction) -> int | float:
    return int(number) if number.denominator == 1 else float(number)
