"""Records as comma-separated values, for spreadsheets."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence

from builder.course import Course
from builder.records import Learner, right_of
from builder.records.team import Decided
from builder.statistics import clustered, wilson

_QUIZ = ("first", "passed", "passed_later", "sittings", "seen_before", "left")
_COUNTS = ("right", "of", "low", "high")
_LEVELS = (1, 2, 3)
_WALKS = ("walks", "passed", "left", "minor_harm", "serious_harm", "unasked")


def decisions(decided: Iterable[Decided], course: Course, keys: Callable[[str], Mapping[str, str]]) -> str:
    """Comma-separated values: one row for each outcome of each decision about each client, with how many
    coaches chose it at first. `keys` gives a client's right outcomes, by table."""
    rows: list[list[object]] = [["table", "client", "outcome", "right", "coaches", "of"]]
    for one in decided:
        for outcome in course.tables[one.table].outcomes:
            count = len(one.chosen.get(outcome, ()))
            right = keys(one.client).get(one.table) == outcome
            rows.append([one.table, one.client, outcome, right, count, one.coaches])
    return _written(rows)


def sheet(course: Course, learners: tuple[Learner, ...], labels: Sequence[str] = ()) -> str:
    """Comma-separated values (RFC 4180): one row a learner, columns for all that can be tried. Where there
    are labels, they stand for the learners, and what else would name them is left out."""
    quizzes = _columns(course.quizzes, (one.quizzes for one in learners))
    objectives = _columns(course.objectives, (one.objectives for one in learners))
    exercises = _columns(course.exercises, (one.exercises for one in learners))
    heads = ["learner", "files", "devices", "version", "build", "first_day", "last_day"]
    heads += ["stopped", "to_stop", "serious", "unasked", "early"]
    heads += [f"sure {level} {what}" for level in _LEVELS for what in _COUNTS]
    heads += [f"quiz {name} {what}" for name in quizzes for what in _QUIZ]
    heads += [f"objective {name} {what}" for name in objectives for what in _COUNTS]
    heads += [f"exercise {name} {what}" for name in exercises for what in _WALKS]
    rows: list[list[object]] = [[*heads]]
    for place, one in enumerate(learners):
        versions, builds = zip(*one.editions, strict=True)
        row: list[object] = [one.name, " ".join(one.files), " ".join(device[:8] for device in one.devices)]
        if labels:
            row = [labels[place], "", ""]
        row += [" ".join(versions), " ".join(builds), one.first_day, one.last_day]
        row += [sum(one.stopped.values()), len(one.stopped)]
        row += [len(one.serious), len(one.unasked), len(one.early)]
        for level in _LEVELS:
            counts = one.calibration.get(level)
            row += [*counts, *wilson(*counts)] if counts else [""] * 4
        for name in quizzes:
            quiz = one.quizzes.get(name)
            row += (
                [quiz.first, quiz.passed, quiz.passed_later, quiz.sittings, quiz.seen, quiz.left]
                if quiz
                else [""] * 6
            )
        for name in objectives:
            firsts = one.objectives.get(name)
            row += [*right_of(firsts), *clustered(firsts)] if firsts else [""] * 4
        for name in exercises:
            walk = one.exercises.get(name)
            row += (
                [walk.walks, walk.passed, walk.left, walk.minor, walk.serious, walk.unasked]
                if walk
                else [""] * 6
            )
        rows.append(["" if value is None else value for value in row])
    return _written(rows)


def _written(rows: Iterable[Iterable[object]]) -> str:
    return "".join(",".join(map(cell, row)) + "\r\n" for row in rows)


def _columns(there: Iterable[str], tried: Iterable[Iterable[str]]) -> list[str]:
    return sorted({*there, *(name for names in tried for name in names)})


_FORMULA = r'[ "]*[-=+@\uff0b\uff0d\uff1d\uff20]'
_AT_START = re.compile(rf"\A(?={_FORMULA}|[\t\r\n])")
_BEHIND = re.compile(rf"([;,|\t\r\n])(?={_FORMULA})")
_TO_QUOTE = re.compile('[",;|\t\r\n]')


def cell(value: object) -> str:
    """One value, quoted as RFC 4180 says. A spreadsheet takes what starts with such a sign for a formula and
    would run it; an apostrophe before it makes it text. A spreadsheet that splits at semicolons or tabs heeds
    no quotation mark in the middle of a line, so behind whatever may part cells the same holds.

    The signs: OWASP, CSV Injection (owasp.org/www-community/attacks/CSV_Injection).
    """
    text = f"{value:.4f}".rstrip("0").rstrip(".") if isinstance(value, float) else str(value)
    safe = _BEHIND.sub(r"\1'", _AT_START.sub("'", text))
    return '"' + safe.replace('"', '""') + '"' if _TO_QUOTE.search(safe) else safe
