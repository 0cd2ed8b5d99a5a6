"""`casetrue check`: finds everything that is wrong with a course."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

import click

from builder import __version__
from builder.answers import Answers
from builder.checks import check
from builder.checks.reading import eases, is_english
from builder.course import Course, Quiz
from builder.problems.json import write_json
from builder.problems.sarif import write_sarif
from builder.problems.tally import counts
from builder.problems.text import write_text
from builder.problems.workflow import write_workflow
from builder.questions.guessing import HABITS, passed_by
from builder.questions.papers import SAFE, turned_away
from builder.words import ENGLISH
from builder.words.sentences import rarely

from .options import console, course_option, day, format_option, load_course


@click.command("check")
@course_option
@format_option("json", "github", "sarif")
@click.option("--today", metavar="DATE", help="The day to check reviews for, as 2026-06-01.")
def command(course_dir: Path, form: str, today: str | None) -> None:
    """Find every problem of a course.

    What only follows from an error is not told, so more may show once it is mended.

    Exit code 0: no error. 1: errors. 2: wrong use, or no course there.
    """
    on = day(today)
    loaded = load_course(course_dir)
    answers = Answers(loaded.course)
    problems = check(loaded, on, answers)
    match form:
        case "json":
            click.echo(write_json(problems), nl=False)
        case "github":
            click.echo(write_workflow(problems, _below_here(course_dir)), nl=False)
        case "sarif":
            click.echo(write_sarif(problems, __version__), nl=False)
        case _:
            out = console()
            if not counts(problems)["error"]:
                lessons = ((one.file, loaded.texts.get(one.file, "")) for one in loaded.course.lessons)
                for line in (*papers(answers), *read_at(loaded.course, lessons)):
                    out.print(line, highlight=False)
            write_text(problems, loaded.texts, out)
    raise SystemExit(1 if counts(problems)["error"] else 0)


def read_at(course: Course, lessons: Iterable[tuple[str, str]]) -> Iterator[str]:
    """At what school grade each kind of text reads; nothing for a course that is not in English."""
    told = [
        f"{one.kind} {one.together.grade:.1f}" for one in eases(course, lessons) if one.together.is_enough
    ]
    if is_english(course) and told:
        yield (
            f"School grade by words and syllables (Flesch-Kincaid; it does not know sense): {', '.join(told)}"
            f"; limit for cautions {float(course.about.reading_grade):g}."
        )


def papers(answers: Answers) -> Iterator[str]:
    """For each quiz whom it can ask about, and how often its papers turn a careful learner away."""
    for name, quiz in answers.course.quizzes.items():
        about = {item.case for item in answers.pools[name]} - {None}
        if about:
            of = f"{len(about & answers.clients.keys())} of {len(answers.clients)} clients"
            made_up = len(about - answers.clients.keys())
            of += f", and {made_up} that are made up" if made_up else ""
            yield f"Quiz {name} can ask about {of}."
        if answers.pools[name]:
            yield _guessed(quiz, answers)
        share = turned_away(quiz, answers.pools[name]) if quiz.serious == "fails" else 0
        if share:
            yield (
                f"Quiz {name}: someone who is safe {SAFE:.0%} of the time would not pass {share:.0%} of its "
                "papers for one unsafe answer."
            )


def _guessed(quiz: Quiz, answers: Answers) -> str:
    """How often people pass who know nothing."""
    pool, pass_mark = answers.pools[quiz.name], answers.pass_mark(quiz)
    blind, longest, refer = (rarely(ENGLISH, passed_by(quiz, pool, pass_mark, habit)) for habit in HABITS)
    return (
        f"Quiz {quiz.name} is passed by people who know nothing: {blind} picking blindly, {longest} always "
        f"picking the longest option, {refer} always sending on."
    )


def _below_here(course_dir: Path) -> str:
    """The course folder as seen from the working folder, which on a code host is the repository."""
    resolved, here = course_dir.resolve(), Path.cwd().resolve()
    if resolved.is_relative_to(here):
        below = resolved.relative_to(here).as_posix()
        return "" if below == "." else below
    return course_dir.as_posix()
