"""`casetrue records`: what learners hand over, as one table."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

import click
from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from builder.answers import Answers
from builder.course import Course
from builder.records import (
    Attempt,
    Facts,
    First,
    HandedOver,
    Learner,
    QuizScore,
    Reason,
    WalkScore,
    read_all,
    right_of,
)
from builder.statistics import clustered, wilson
from builder.words import words_for

from .options import console, course_option, day, format_option, load_course
from .spreadsheet import sheet


@click.command("records")
@click.argument("files", metavar="FILES...", nargs=-1, required=True)
@course_option
@format_option("json", "csv", help="For people, for other programs, or for spreadsheets.")
@click.option(
    "--details",
    is_flag=True,
    help="For people: unsafe answers, and each quiz, objective and exercise, below the table.",
)
@click.option("--today", metavar="DATE", help="The day, as 2026-06-01; what is later cannot be true.")
def command(files: tuple[str, ...], course_dir: Path, form: str, details: bool, today: str | None) -> None:
    """Show the records that learners handed over, one row a learner.

    FILES are copies saved by the page My record, for example handed-over/*.json. Those with the same name are
    one learner's.

    Exit code 0: every file was read. 1: some file is no record of this course, or some of its attempts cannot
    be read or cannot be true; they are named and left out. 2: wrong use, or no course.
    """
    course = load_course(course_dir).course
    facts = Facts(Answers(course, words_for(course.about.language)))
    found = read_all(files, facts, day(today))
    match form:
        case "json":
            click.echo(json.dumps(document(found), ensure_ascii=False, indent=2, allow_nan=False))
        case "csv":
            click.echo(sheet(course, found.learners), nl=False)
        case _:
            if found.learners:
                write(course, found.learners, details, console())
    for line in _told(found):
        click.echo(line, err=True)
    unread = any(record.unread for _, record in found.records)
    raise SystemExit(1 if found.bad or found.doubted or unread else 0)


_NOTE = (
    "Records of practice, no certificates: each was made by the learner's own browser, and nobody has "
    "checked it. Stopped: of the clients who must be sent on, those whom every first answer sent on. "
    "Right at first: of all first answers, those that were right, with a 95% interval (Wilson 1927)."
)


_NAMED = 5
"""Attempts told at most."""
_REASONS: Mapping[Reason, str] = {
    "mark": "its mark is not what its answers give",
    "future": "its day has not come yet",
    "quiz": "this course has no such quiz",
}


def _told(found: HandedOver) -> Iterable[str]:
    """What was left out, and what to ask about, a line each."""
    for file, record in found.records:
        if record.unread:
            yield f"{file}: {_left_out(record.unread)}"
    for file in dict.fromkeys(one.file for one in found.doubted):
        doubted = [one for one in found.doubted if one.file == file]
        named = "; ".join(f"{_thing(one.attempt)}: {_REASONS[one.reason]}" for one in doubted[:_NAMED])
        more = "; ..." if len(doubted) > _NAMED else ""
        yield f"{file}: attempts that cannot be true and do not count: {len(doubted)} ({named}{more})."
    for file, number in found.changed:
        yield f"{file}: answers that count for nothing, since the right answer has changed: {number}."
    for one in found.doubled:
        whose = "and counts once" if one.is_same else f"under {one.name or 'no name'}. Ask whose it is"
        yield f"{one.file}: all of it stands in {one.other} too, {whose}."
    for device, several in found.shared.items():
        names = ", ".join(map(_name, several))
        yield f"One device, {device[:8]}, handed over under several names: {names}."
    for bad in found.bad:
        yield f"{bad.file}: {bad.message}"


def _left_out(unread: tuple[int, ...]) -> str:
    places = ", ".join(map(str, unread[:_NAMED])) + (", ..." if len(unread) > _NAMED else "")
    return f"attempts that cannot be read and are left out: {len(unread)} (number {places}). The rest counts."


def _thing(attempt: Attempt) -> str:
    return f"{attempt.id} on {attempt.at[:10]}"


def document(found: HandedOver) -> dict[str, object]:
    """What `--format json` prints."""
    return {
        "learners": [_learner(one) for one in found.learners],
        "left_out": [
            {"file": file, "attempts": list(one.unread)} for file, one in found.records if one.unread
        ],
        "not_counted": [
            {"file": one.file, "attempt": one.attempt.id, "at": one.attempt.at, "reason": one.reason}
            for one in found.doubted
        ],
        "changed": [{"file": file, "answers": number} for file, number in found.changed],
        "doubled": [{"file": one.file, "in": one.other} for one in found.doubled],
        "refused": [{"file": one.file, "reason": one.reason, "message": one.message} for one in found.bad],
    }


def _learner(one: Learner) -> dict[str, object]:
    return {
        "learner": one.name,
        "also": list(one.also),
        "files": list(one.files),
        "devices": list(one.devices),
        "editions": [{"version": version, "build": build} for version, build in one.editions],
        "first_day": one.first_day or None,
        "last_day": one.last_day or None,
        "stopped": {
            "stopped": sum(one.stopped.values()),
            "of": len(one.stopped),
            "not": sorted(client for client, did in one.stopped.items() if not did),
        },
        "serious": [_answer(attempt) for attempt in one.serious],
        "calibration": {
            str(level): _counts(*counts, wilson(*counts)) for level, counts in sorted(one.calibration.items())
        },
        "very_sure_and_wrong": [_answer(attempt) for attempt in one.sure_and_wrong],
        "objectives": {
            name: _counts(*right_of(firsts), clustered(firsts))
            for name, firsts in sorted(one.objectives.items())
        },
        "quizzes": {
            name: {
                "first": quiz.first,
                "passed": quiz.passed,
                "passed_later": quiz.passed_later,
                "sittings": quiz.sittings,
                "seen_before": quiz.seen,
                "left": quiz.left,
            }
            for name, quiz in sorted(one.quizzes.items())
        },
        "exercises": {
            name: {
                "walks": w.walks,
                "passed": w.passed,
                "left": w.left,
                "minor_harm": w.minor,
                "serious_harm": w.serious,
            }
            for name, w in sorted(one.exercises.items())
        },
    }


def _counts(right: int, of: int, interval: tuple[float, float]) -> dict[str, float]:
    low, high = interval
    return {"right": right, "of": of, "low": low, "high": high}


def _answer(attempt: Attempt) -> dict[str, object]:
    return {
        "item": attempt.id,
        "client": attempt.client,
        "at": attempt.at,
        "harm": attempt.harm,
        "breaks": list(attempt.breaks),
    }


def write(course: Course, learners: tuple[Learner, ...], details: bool, out: Console) -> None:
    """Prints one row a learner, so that many can be compared; on request all that each has tried below."""
    out.print(Text(course.about.title, "bold"))
    out.print(table(course, learners))
    for one in learners if details else ():
        out.print()
        _details(course, one, out)
    out.print()
    out.print(
        Text(_NOTE if details else f"{_NOTE} `--details` shows each unsafe answer, quiz and exercise.", "dim")
    )


def table(course: Course, learners: tuple[Learner, ...]) -> Table:
    """One row a learner."""
    shown = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="bold")
    heads = ("Learner", "Last day", "Stopped", "Unsafe", "Quizzes\npassed", "Right at first")
    for head in heads:
        shown.add_column(head, overflow="fold", no_wrap=head == "Last day", vertical="bottom")
    for one in learners:
        firsts = [first for some in one.objectives.values() for first in some]
        shown.add_row(
            Text(_name(one)),
            one.last_day or "never",
            _stopped(one),
            str(len(one.serious) or "none"),
            f"{sum(quiz.passed for quiz in one.quizzes.values())} of {len({*course.quizzes, *one.quizzes})}",
            _share(firsts),
        )
    return shown


def _stopped(one: Learner) -> str:
    return f"{sum(one.stopped.values())} of {len(one.stopped)}" if one.stopped else "none met"


_SURE = {1: "Not sure", 2: "Fairly sure", 3: "Very sure"}


def _details(course: Course, one: Learner, out: Console) -> None:
    """All that a learner has tried. What this edition of the course no longer has stands by its name."""
    titles = {name: quiz.title for name, quiz in course.quizzes.items()}
    labels = {name: objective.label for name, objective in course.objectives.items()}
    walks = {name: exercise.title for name, exercise in course.exercises.items()}
    out.print(Text(_name(one), "bold"))
    editions = [" ".join(("version", version, "build", build)) for version, build in one.editions if build]
    missed = [_client(course, client) for client, did in one.stopped.items() if not did]
    parts = {
        "Saved from": editions,
        f"Stopped {_stopped(one)}, and not": missed,
        "Unsafe answers": [_said(course, attempt) for attempt in one.serious],
        "Very sure and wrong": [_said(course, attempt) for attempt in one.sure_and_wrong],
        "How sure, and right": [
            f"{_SURE[level]}: {_said_of(*counts, wilson(*counts))}"
            for level, counts in sorted(one.calibration.items())
        ],
        "Quizzes": [_quiz(titles.get(name, name), score) for name, score in sorted(one.quizzes.items())],
        "Objectives": [
            f"{labels.get(name, name)}: {_share(firsts)}" for name, firsts in sorted(one.objectives.items())
        ],
        "Exercises": [
            _exercise(walks.get(name, name), score) for name, score in sorted(one.exercises.items())
        ],
    }
    for head, lines in parts.items():
        out.print(Text(f"{head}: none" if not lines else f"{head}:"))
        for line in lines:
            out.print(Padding(Text(line), (0, 0, 0, 3), expand=False))


def _name(one: Learner) -> str:
    if not one.name:
        return f"(no name: {', '.join(Path(file).name for file in one.files)})"
    return f"{one.name} (also {', '.join(one.also)})" if one.also else one.name


def _client(course: Course, name: str) -> str:
    return course.cases[name].client.name if name in course.cases else name


def _said(course: Course, attempt: Attempt) -> str:
    """`Rail, g-screen.rail-06 on 2026-06-01: unsafe, against Heel pain under load`."""
    who = f"{_client(course, attempt.client)}, " if attempt.client else ""
    harm = {"serious": ": unsafe", "arguable": ": may be unsafe", "minor": ": could do harm"}
    against = [course.cautions[name].title if name in course.cautions else name for name in attempt.breaks]
    return (
        f"{who}{_thing(attempt)}{harm.get(attempt.harm or '', '')}"
        f"{', against ' if against else ''}{', '.join(against)}"
    )


def _share(firsts: Sequence[First]) -> str:
    """Answers about one client count as fewer."""
    return _said_of(*right_of(firsts), clustered(firsts)) if firsts else "none tried"


def _said_of(right: int, of: int, interval: tuple[float, float]) -> str:
    low, high = interval
    return f"{right} of {of}, {100 * low:.0f} to {100 * high:.0f}%"


def _quiz(name: str, score: QuizScore) -> str:
    if score.first is None:
        told = "not finished"
    else:
        told = f"first sitting {_percent(score.first)}, {'passed' if score.passed else 'not passed'}"
    if score.passed_later:
        told += f"; passed at sitting {score.passed_later}"
    told += f"; sittings that count: {score.sittings}"
    told += f", drawn before: {score.seen}" if score.seen else ""
    return f"{name}: {told}{f', left: {score.left}' if score.left else ''}"


def _exercise(name: str, score: WalkScore) -> str:
    harm = f", UNSAFE in {score.serious}" if score.serious else ""
    harm += f", minor harm in {score.minor}" if score.minor else ""
    left = f", left half way: {score.left}" if score.left else ""
    return f"{name}: {score.passed} of {score.walks} passed{left}{harm}"


def _percent(share: float) -> str:
    """Never rounded up, so that what is shown as a pass mark is one."""
    return f"{int(100 * share + 1e-9)}%"
