"""Everything of a course by which a later change is told (course format, "Editions and changes").

It is the same for the same course, on any machine: no clock, and chances to six decimals.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import TypedDict

from builder.answers import Answers, ClientAnswers
from builder.checks.prose import texts as texts_of
from builder.checks.scope import plain
from builder.course import Band, Course, digest
from builder.problems import Scalar

from .mark import mark

_DECIMALS = 6
"""Of a chance: what a library of another machine rounds otherwise lies far behind them."""


class DecisionData(TypedDict):
    outcome: str | None
    rule: str | None
    chance: dict[str, float]
    """Every outcome of the table to its probability; empty for a table that cannot be proved."""


class CaseData(TypedDict):
    readings: dict[str, Scalar | list[Scalar] | None]
    """By measure: the trials of a number, any other finding as it is; age too where it is read."""
    cautions: list[str]
    """Those met, by name."""
    decisions: dict[str, DecisionData]
    """By table."""


class EditionData(TypedDict):
    """One file of `editions/`."""

    format: int
    edition: str
    date: str
    """YYYY-MM-DD."""
    course: str
    build: str
    """The mark of a build of just this course."""
    cases: dict[str, CaseData]
    rules: dict[str, dict[str, dict[str, Scalar]]]
    """`table/rule` to the numbers of its `when`: by input, then by bound."""
    questions: dict[str, str]
    """Every question that is asked, those of families too, to the digest of its kind and right answer."""
    texts: dict[str, dict[str, str]]
    """Kind (`caution`, `drill`, `rule` for its reason, `lesson`, `question`) and name to the digest of what
    people read."""


def edition_of(answers: Answers, files: Mapping[str, str], version: str, date: str) -> EditionData:
    """The edition of a course as it stands; `files` are its files by path."""
    course = answers.course
    return {
        "format": 1,
        "edition": version,
        "date": date,
        "course": course.about.name,
        "build": mark(files),
        "cases": {name: _case(client) for name, client in answers.clients.items()},
        "rules": {
            f"{table.name}/{rule.id}": {
                name: {bound: plain(cut) for bound, cut in asked.bounds.items()}
                for name, asked in rule.when.items()
                if isinstance(asked, Band)
            }
            for table in course.tables.values()
            for rule in table.rules
        },
        "questions": {item.id: item.key_digest for item in answers.bank},
        "texts": _texts(course, files),
    }


def _case(client: ClientAnswers) -> CaseData:
    readings: dict[str, Scalar | list[Scalar] | None] = {
        name: [plain(trial) for trial in one.trials] if one.trials else one.finding
        for name, one in client.case.readings.items()
    }
    return {
        "readings": readings,
        "cautions": [caution.name for caution in client.met],
        "decisions": {name: _decision(client, name) for name in client.decisions},
    }


def _decision(client: ClientAnswers, table: str) -> DecisionData:
    decision, sure = client.decisions[table], client.chances.get(table)
    chance = {} if sure is None else {name: round(one, _DECIMALS) for name, one in sure.chance.items()}
    return {
        "outcome": decision.outcome,
        "rule": decision.rule.id if decision.rule else None,
        "chance": chance,
    }


def _texts(course: Course, files: Mapping[str, str]) -> dict[str, dict[str, str]]:
    read: dict[str, dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for text in texts_of(course):
        kind, _, name = text.subject.partition(":")
        read[kind][name].append(text.text)
    for lesson in course.lessons:
        read["lesson"][lesson.file] = [files.get(lesson.file, "")]
    kinds = ("caution", "drill", "rule", "lesson", "question")
    return {kind: {name: digest(said) for name, said in read[kind].items()} for kind in kinds}
