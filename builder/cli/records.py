"""`casetrue records`: what learners hand over, as one table."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from pathlib import Path

import click
from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from builder.answers import Answers
from builder.course import Course
from builder.problems.printable import one_line
from builder.records import (
    Attempt,
    Facts,
    First,
    HandedOver,
    Learner,
    QuizScore,
    WalkScore,
    read_all,
    right_of,
)
from builder.records.pseudonyms import pseudonyms
from builder.records.timing import FEW, taken
from builder.records.told import on_day, told
from builder.statistics import clustered, wilson
from builder.words import ENGLISH, words_for
from builder.words.numbers import percent

from .options import console, course_option, day, format_option, load_course
from .place import place_of, refuse_others, tidy_up
from .records_document import document
from .site_address import site_address
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
@click.option(
    "--out",
    "out",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="DIR",
    help="Write pages for the owner there, with sheets beside them: a folder outside the course.",
)
@click.option("--names", is_flag=True, help="Call coaches by their names on those pages, and name files.")
@click.option("--site", metavar="URL", help="The address of the course's site, for links to clients.")
@click.option("--today", metavar="DATE", help="The day, as 2026-06-01; what is later cannot be true.")
def command(
    files: tuple[str, ...],
    course_dir: Path,
    form: str,
    details: bool,
    out: Path | None,
    names: bool,
    site: str | None,
    today: str | None,
) -> None:
    """Show the records that learners handed over, one row a learner.

    FILES are copies saved by the page My record, for example handed-over/*.json. Those with the same name are
    one learner's.

    With `--out` it writes the owner's pages: who stopped whom, what would help each coach, what to teach, and
    whether they decide alike. They name nobody, unless `--names` is given; who is who is then told here.

    Exit code 0: every file was read. 1: some file is no record of this course, or some of its attempts cannot
    be read or cannot be true; they are named and left out. 2: wrong use, or no course.
    """
    if out is None and (names or site):
        raise click.UsageError("--names and --site are for the owner's pages: give --out DIR too.")
    course = load_course(course_dir).course
    read_on = day(today)
    place = None if out is None else place_of(out, course_dir)
    address = None if place is None else site_address(course_dir, site)
    if place is not None:
        tidy_up(place)
        refuse_others(place)
    answers = Answers(course, words_for(course.about.language))
    facts = Facts(answers)
    found = read_all(files, facts, read_on)
    marks = pseudonyms(found.learners, course.about.name)
    labels = tuple(map(_name, found.learners)) if names else marks
    if place is not None:
        # With the templates, which a table does without.
        from builder.site.owner import Report

        from .owner_folder import write_folder

        write_folder(Report(answers, facts, found, labels, address, read_on, names), place)
        click.echo(f"Written: {one_line(place / 'index.html')}", err=True)
    match form:
        case "json":
            whole = document(found, marks, facts)
            click.echo(json.dumps(whole, ensure_ascii=False, indent=2, allow_nan=False))
        case "csv":
            click.echo(sheet(course, found.learners), nl=False)
        case _ if place is not None:
            _who_is_who(found.learners, () if names else labels)
        case _:
            if found.learners:
                write(course, found.learners, details, console())
                for line in _timed(found):
                    click.echo(line)
    for line in told(ENGLISH, found, str, _name):
        click.echo(line, err=True)
    unread = any(record.unread for _, record in found.records)
    raise SystemExit(1 if found.bad or found.doubted or unread else 0)


def _timed(found: HandedOver) -> Iterator[str]:
    """What `contact_time` in course.yml can state, from what learners took."""
    whats = (("question", "minutes_per_question"), ("client in an exercise", "minutes_per_exercise"))
    for (what, key), one in zip(whats, taken(record for _, record in found.records), strict=True):
        if one is not None:
            few = f" That is few: wait for {FEW}." if one.number < FEW else ""
            yield (
                f"A {what} took {one.middle:.1f} minutes in the middle, half of them {one.low:.1f} to "
                f"{one.high:.1f} ({one.number} timed); `{key}` under `contact_time` can say so.{few}"
            )


def _who_is_who(learners: tuple[Learner, ...], labels: Sequence[str]) -> None:
    for label, one in zip(labels, learners, strict=False):
        click.echo(f"{label}: {one_line(_name(one))}")


_NOTE = (
    "Records of practice, no certificates: each was made by the learner's own browser, and nobody has "
    "checked it. Stopped: of the clients who must be sent on, those whom every first answer sent on. "
    "Right at first: of all first answers, those that were right, with a 95% interval (Wilson 1927)."
)


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
        "Unsafe for want of asking": [_said(course, attempt) for attempt in one.unasked],
        "Right before it was known": [_said(course, attempt) for attempt in one.early],
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
        f"{who}{on_day(ENGLISH, attempt)}{harm.get(attempt.harm or '', '')}"
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
        told = f"first sitting {percent(ENGLISH, score.first)}, {'passed' if score.passed else 'not passed'}"
    if score.passed_later:
        told += f"; passed at sitting {score.passed_later}"
    told += f"; sittings that count: {score.sittings}"
    told += f", drawn before: {score.seen}" if score.seen else ""
    return f"{name}: {told}{f', left: {score.left}' if score.left else ''}"


def _exercise(name: str, score: WalkScore) -> str:
    harm = f", UNSAFE in {score.serious}" if score.serious else ""
    harm += f", unsafe for want of asking in {score.unasked}" if score.unasked else ""
    harm += f", minor harm in {score.minor}" if score.minor else ""
    left = f", left half way: {score.left}" if score.left else ""
    return f"{name}: {score.passed} of {score.walks} passed{left}{harm}"
