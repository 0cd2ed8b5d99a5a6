"""`casetrue records`: what learners hand over, as one table."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

import click
from rich.table import Table
from rich.text import Text

from builder.course import Course
from builder.records import LARGEST, Learner, QuizScore, Record, Refused, WalkScore, by_learner, read
from builder.statistics import wilson

from .options import console, course_option, format_option, load_course


@dataclass(frozen=True, slots=True)
class Bad:
    """A file that is no record of this course."""

    file: str
    reason: str
    message: str


@click.command("records")
@click.argument("files", metavar="FILES...", nargs=-1, required=True)
@course_option
@format_option("json", "csv", help="For people, for other programs, or for spreadsheets.")
def command(files: tuple[str, ...], course_dir: Path, form: str) -> None:
    """Show the records that learners handed over, one row a learner.

    FILES are copies saved by the page My record. Those with the same name are one learner's.

    Exit code 0: every file was read. 1: some file is no record of this course. 2: wrong use, or no course.
    """
    course = load_course(course_dir).course
    good, bad = _read_all(files, course.about.name)
    learners = by_learner(good)
    match form:
        case "json":
            click.echo(json.dumps(document(learners, bad), ensure_ascii=False, indent=2, allow_nan=False))
        case "csv":
            click.echo(sheet(course, learners), nl=False)
        case _:
            if learners:
                console().print(table(course, learners))
                console().print(Text(_NOTE, "dim"))
    for one in bad:
        click.echo(f"{one.file}: {one.message}", err=True)
    raise SystemExit(1 if bad else 0)


_NOTE = (
    "Records of practice, no certificates: each was made by the learner's own browser, and nobody has "
    "checked it. Shares are of first attempts, with 95% intervals (Wilson 1927)."
)


def _read_all(files: tuple[str, ...], course: str) -> tuple[list[tuple[str, Record]], list[Bad]]:
    good: list[tuple[str, Record]] = []
    bad: list[Bad] = []
    for file in sorted(set(files)):
        try:
            with Path(file).open("rb") as opened:
                good.append((file, read(opened.read(LARGEST + 1), course)))
        except Refused as refused:
            bad.append(Bad(file, refused.reason, str(refused)))
        except (OSError, ValueError):
            bad.append(Bad(file, "file", "the file cannot be opened."))
    return good, bad


def document(learners: tuple[Learner, ...], bad: list[Bad]) -> dict[str, object]:
    """What `--format json` prints."""
    return {
        "learners": [
            {
                "learner": one.name,
                "files": list(one.files),
                "editions": [{"version": version, "build": build} for version, build in one.editions],
                "first_day": one.first_day or None,
                "last_day": one.last_day or None,
                "objectives": {
                    name: {"held": held, "of": of, "low": wilson(held, of)[0], "high": wilson(held, of)[1]}
                    for name, (held, of) in sorted(one.objectives.items())
                },
                "quizzes": {
                    name: {"first": quiz.first, "best": quiz.best, "held": quiz.held, "times": quiz.times}
                    for name, quiz in sorted(one.quizzes.items())
                },
                "exercises": {
                    name: {"walks": w.walks, "held": w.held, "minor_harm": w.minor, "serious_harm": w.serious}
                    for name, w in sorted(one.exercises.items())
                },
            }
            for one in learners
        ],
        "refused": [{"file": one.file, "reason": one.reason, "message": one.message} for one in bad],
    }


def table(course: Course, learners: tuple[Learner, ...]) -> Table:
    """One row a learner. What this edition of the course no longer has stands by its name in the files."""
    titles = {name: quiz.title for name, quiz in course.quizzes.items()}
    labels = {name: objective.label for name, objective in course.objectives.items()}
    walks = {name: exercise.title for name, exercise in course.exercises.items()}
    shown = Table(show_lines=True)
    for head in ("Learner", "Quizzes", "Objectives", "Exercises"):
        shown.add_column(head, overflow="fold")
    for one in learners:
        quizzes = [_quiz(titles.get(name, name), score) for name, score in sorted(one.quizzes.items())]
        objectives = [
            _objective(labels.get(name, name), *counts) for name, counts in sorted(one.objectives.items())
        ]
        exercises = [_exercise(walks.get(name, name), score) for name, score in sorted(one.exercises.items())]
        shown.add_row(
            _who(one), *(Text("\n".join(lines) or "none") for lines in (quizzes, objectives, exercises))
        )
    return shown


def _who(one: Learner) -> Text:
    name = one.name or f"(no name: {', '.join(Path(file).name for file in one.files)})"
    editions = [" ".join(("version", version, "build", build)) for version, build in one.editions if build]
    return Text("\n".join((name, *editions, f"last {one.last_day or 'never'}")))


def _quiz(name: str, score: QuizScore) -> str:
    held = "reached" if score.held else "not reached"
    return f"{name}: first {_percent(score.first)}, best {_percent(score.best)}, {held}, ended {score.times}x"


def _objective(name: str, held: int, of: int) -> str:
    low, high = wilson(held, of)
    return f"{name}: {held} of {of}, {100 * low:.0f} to {100 * high:.0f}%"


def _exercise(name: str, score: WalkScore) -> str:
    harm = f", SERIOUS HARM in {score.serious}" if score.serious else ""
    harm += f", minor harm in {score.minor}" if score.minor else ""
    return f"{name}: {score.held} of {score.walks} held{harm}"


def _percent(share: float) -> str:
    """Never rounded up, so that what is shown as a pass mark is one."""
    return f"{int(100 * share + 1e-9)}%"


def sheet(course: Course, learners: tuple[Learner, ...]) -> str:
    """Comma-separated values (RFC 4180): one row a learner, columns for all that can be tried."""
    quizzes = _columns(course.quizzes, (one.quizzes for one in learners))
    objectives = _columns(course.objectives, (one.objectives for one in learners))
    exercises = _columns(course.exercises, (one.exercises for one in learners))
    heads = ["learner", "files", "version", "build", "first_day", "last_day"]
    heads += [f"quiz {name} {what}" for name in quizzes for what in ("first", "best", "held", "times")]
    heads += [f"objective {name} {what}" for name in objectives for what in ("held", "of", "low", "high")]
    heads += [
        f"exercise {name} {what}"
        for name in exercises
        for what in ("walks", "held", "minor_harm", "serious_harm")
    ]
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(heads)
    for one in learners:
        versions, builds = zip(*one.editions, strict=True)
        row: list[object] = [one.name, " ".join(one.files), " ".join(versions), " ".join(builds)]
        row += [one.first_day, one.last_day]
        for name in quizzes:
            quiz = one.quizzes.get(name)
            row += [quiz.first, quiz.best, quiz.held, quiz.times] if quiz else [""] * 4
        for name in objectives:
            counts = one.objectives.get(name)
            row += [*counts, *wilson(*counts)] if counts else [""] * 4
        for name in exercises:
            walk = one.exercises.get(name)
            row += [walk.walks, walk.held, walk.minor, walk.serious] if walk else [""] * 4
        writer.writerow([cell(value) for value in row])
    return text.getvalue()


def _columns(held: Iterable[str], tried: Iterable[Iterable[str]]) -> list[str]:
    return sorted({*held, *(name for names in tried for name in names)})


def cell(value: object) -> str:
    """One value. A spreadsheet takes what starts with one of these signs for a formula and would run it; an
    apostrophe before it makes it text."""
    text = f"{value:.4f}".rstrip("0").rstrip(".") if isinstance(value, float) else str(value)
    return f"'{text}" if text[:1] in tuple("=+-@\t\r\n") else text
