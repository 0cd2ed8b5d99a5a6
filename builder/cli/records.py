"""`casetrue records`: what learners hand over, as one table."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

import click
from rich.console import Console
from rich.padding import Padding
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
@click.option(
    "--details", is_flag=True, help="For people: each quiz, objective and exercise below the table."
)
def command(files: tuple[str, ...], course_dir: Path, form: str, details: bool) -> None:
    """Show the records that learners handed over, one row a learner.

    FILES are copies saved by the page My record, for example handed-over/*.json. Those with the same name are
    one learner's.

    Exit code 0: every file was read. 1: some file is no record of this course, or some of its attempts cannot
    be read and are left out. 2: wrong use, or no course.
    """
    course = load_course(course_dir).course
    good, bad = _read_all(files, course.about.name)
    learners = by_learner(good)
    match form:
        case "json":
            written = json.dumps(document(learners, good, bad), ensure_ascii=False, indent=2, allow_nan=False)
            click.echo(written)
        case "csv":
            click.echo(sheet(course, learners), nl=False)
        case _:
            if learners:
                write(course, learners, details, console())
    for file, record in good:
        if record.unread:
            click.echo(f"{file}: {_left_out(record.unread)}", err=True)
    for one in bad:
        click.echo(f"{one.file}: {one.message}", err=True)
    raise SystemExit(1 if bad or any(record.unread for _, record in good) else 0)


_NOTE = (
    "Records of practice, no certificates: each was made by the learner's own browser, and nobody has "
    "checked it. Held at first: of all questions and steps, those that held at the first attempt, with a 95% "
    "interval (Wilson 1927)."
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
        except IsADirectoryError:
            message = f"that is a folder; name the files in it, as {Path(file) / '*.json'}."
            bad.append(Bad(file, "folder", message))
        except (OSError, ValueError):
            bad.append(Bad(file, "file", "the file cannot be opened."))
    return good, bad


_NAMED = 5
"""Places of attempts told at most."""


def _left_out(unread: tuple[int, ...]) -> str:
    places = ", ".join(map(str, unread[:_NAMED])) + (", ..." if len(unread) > _NAMED else "")
    return f"attempts that cannot be read and are left out: {len(unread)} (number {places}). The rest counts."


def document(
    learners: tuple[Learner, ...], good: list[tuple[str, Record]], bad: list[Bad]
) -> dict[str, object]:
    """What `--format json` prints."""
    return {
        "learners": [
            {
                "learner": one.name,
                "also": list(one.also),
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
        "left_out": [{"file": file, "attempts": list(one.unread)} for file, one in good if one.unread],
        "refused": [{"file": one.file, "reason": one.reason, "message": one.message} for one in bad],
    }


def write(course: Course, learners: tuple[Learner, ...], details: bool, out: Console) -> None:
    """Prints one row a learner, so that many can be compared; on request all that each has tried below."""
    out.print(Text(course.about.title, "bold"))
    out.print(table(course, learners))
    for one in learners if details else ():
        out.print()
        _details(course, one, out)
    out.print()
    out.print(Text(_NOTE if details else f"{_NOTE} `--details` shows each quiz and exercise.", "dim"))


def table(course: Course, learners: tuple[Learner, ...]) -> Table:
    """One row a learner."""
    shown = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="bold")
    for head in ("Learner", "Last day", "Quizzes\npassed", "Walks\nheld", "Serious\nharm", "Held at first"):
        shown.add_column(head, overflow="fold", no_wrap=head == "Last day", vertical="bottom")
    for one in learners:
        walks = one.exercises.values()
        held, of = map(sum, zip((0, 0), *one.objectives.values(), strict=True))
        shown.add_row(
            Text(_name(one)),
            one.last_day or "never",
            f"{sum(quiz.held for quiz in one.quizzes.values())} of {len({*course.quizzes, *one.quizzes})}",
            f"{sum(walk.held for walk in walks)} of {sum(walk.walks for walk in walks)}",
            str(sum(walk.serious for walk in walks) or "none"),
            _share(held, of),
        )
    return shown


def _details(course: Course, one: Learner, out: Console) -> None:
    """All that a learner has tried. What this edition of the course no longer has stands by its name."""
    titles = {name: quiz.title for name, quiz in course.quizzes.items()}
    labels = {name: objective.label for name, objective in course.objectives.items()}
    walks = {name: exercise.title for name, exercise in course.exercises.items()}
    out.print(Text(_name(one), "bold"))
    editions = [" ".join(("version", version, "build", build)) for version, build in one.editions if build]
    parts = {
        "Saved from": editions,
        "Quizzes": [_quiz(titles.get(name, name), score) for name, score in sorted(one.quizzes.items())],
        "Objectives": [
            f"{labels.get(name, name)}: {_share(*counts)}" for name, counts in sorted(one.objectives.items())
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


def _share(held: int, of: int) -> str:
    if not of:
        return "none tried"
    low, high = wilson(held, of)
    return f"{held} of {of}, {100 * low:.0f} to {100 * high:.0f}%"


def _quiz(name: str, score: QuizScore) -> str:
    held = "passed" if score.held else "not passed"
    times = "once" if score.times == 1 else f"{score.times} times"
    return f"{name}: first {_percent(score.first)}, best {_percent(score.best)}, {held}, finished {times}"


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
    rows: list[list[object]] = [[*heads]]
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
        rows.append(row)
    return "".join(",".join(map(cell, row)) + "\r\n" for row in rows)


def _columns(held: Iterable[str], tried: Iterable[Iterable[str]]) -> list[str]:
    return sorted({*held, *(name for names in tried for name in names)})


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
