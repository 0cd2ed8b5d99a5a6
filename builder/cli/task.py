"""`casetrue task`: an address that asks coaches for a quiz until a day."""

from __future__ import annotations

import hashlib
from datetime import date
from pathlib import Path

import click

from builder.answers import Answers, addresses
from builder.course import Course
from builder.problems.nearest import nearest_word
from builder.questions import FIRST_SEED
from builder.records.task import Task
from builder.words import words_for

from .options import course_option, day, load_course
from .site_address import site_address

HIGHEST = 9999
"""The highest number of a draw that an address can ask for; see `web/quiz-element.js`."""


@click.command("task")
@click.argument("quiz")
@course_option
@click.option("--until", metavar="DATE", required=True, help="The last day, as 2026-12-04.")
@click.option(
    "--draw",
    type=click.IntRange(1, HIGHEST),
    help="Which draw of the quiz; without it, one that follows from quiz and day.",
)
@click.option(
    "--site", metavar="URL", help="The address of the course's site, else `site_url` of mkdocs.yml."
)
@click.option("--today", metavar="DATE", help="The day, as 2026-06-01; a task cannot end before it.")
def command(
    quiz: str, course_dir: Path, until: str, draw: int | None, site: str | None, today: str | None
) -> None:
    """Write an address that asks coaches for QUIZ until a day.

    Whoever opens it is told what is asked and until when, and gets the same questions as everybody else. What
    they hand over says which task it answers.

    Exit code 0: the address was written. 2: wrong use, no course, or no address of a site.
    """
    course = load_course(course_dir).course
    _check_quiz(course, quiz)
    until, now = day(until, "--until"), day(today)
    if until < now:
        raise click.BadParameter(f"{until} is over; today is {now}.", param_hint="--until")
    home = site_address(course_dir, site)
    if home is None:
        raise click.UsageError(
            "Nobody knows where the course's site is, so no address can be written. Give it with --site. A "
            "course with a mkdocs.yml of its own can name it there, as `site_url`."
        )
    task = Task(quiz, _draw_of(course, quiz, until, draw), until)
    click.echo(f"{home}/{addresses.task(task.quiz, task.draw, task.until)}")
    title = course.quizzes[quiz].title
    click.echo(
        f"“{title}”, draw {task.draw}, until {_said(until)}. Everybody with this address gets the same "
        "questions. Nothing is sent by itself: coaches save a copy and hand it over.",
        err=True,
    )


def _check_quiz(course: Course, quiz: str) -> None:
    if quiz in course.quizzes:
        return
    near = nearest_word(quiz, course.quizzes)
    told = f"Did you mean {near}?" if near else f"There are: {', '.join(sorted(course.quizzes)) or 'none'}."
    raise click.BadParameter(f"This course has no quiz {quiz!r}. {told}", param_hint="QUIZ")


def _draw_of(course: Course, quiz: str, until: str, draw: int | None) -> int:
    """What was asked for; else one that follows from quiz and day. A quiz that always asks the same has one
    draw."""
    answers = Answers(course, words_for(course.about.language))
    if len(answers.pools[quiz]) == len(answers.first_draws[quiz]):
        if draw not in (None, FIRST_SEED):
            raise click.BadParameter(
                "This quiz always asks the same questions: leave --draw out.", param_hint="--draw"
            )
        return FIRST_SEED
    if draw is not None:
        return draw
    digest = hashlib.sha256(f"{quiz}/{until}".encode()).digest()
    return FIRST_SEED + 1 + int.from_bytes(digest, "big") % (HIGHEST - FIRST_SEED)


def _said(until: str) -> str:
    one = date.fromisoformat(until)
    return f"{one:%A} {one.day} {one:%B %Y}"
