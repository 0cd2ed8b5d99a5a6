"""`casetrue edition`: keeps what the course comes to today, so that later changes can be told."""

from __future__ import annotations

import json
from pathlib import Path

import click

from builder.answers import Answers
from builder.checks import check
from builder.editions import edition_of
from builder.problems.printable import one_line
from builder.problems.tally import counts
from builder.problems.text import write_text
from builder.source.editions import VERSION
from builder.source.files import alike
from builder.source.kinds import EDITIONS
from builder.words import words_for

from .course_files import refuse_outside, write_file
from .options import console, course_option, day, load_course


@click.command("edition")
@click.argument("version")
@course_option
@click.option("--today", metavar="DATE", help="The day of the edition, as 2026-06-01.")
def command(version: str, course_dir: Path, today: str | None) -> None:
    """Keep the course as it stands as the edition VERSION, in its folder editions/.

    Every page of a site carries the newest edition and its day. No edition is ever written over.

    Exit code 0: written. 1: errors in the course. 2: wrong use, or no course there.
    """
    if not VERSION.fullmatch(version):
        raise click.BadParameter(
            f"{one_line(version)} is no version. It starts with a letter or a digit; letters, digits, dots, "
            "- and _ may follow.",
            param_hint="VERSION",
        )
    date = day(today)
    loaded = load_course(course_dir)
    path = course_dir / EDITIONS / f"{version}.json"
    there = path.parent.iterdir() if path.parent.is_dir() else ()
    if alike(path.name) in {alike(one.name) for one in there}:
        raise click.UsageError(f"{one_line(path)} is there already, and is left as it is.")
    answers = Answers(loaded.course, words_for(loaded.course.about.language))
    problems = check(loaded, date, answers)
    if counts(problems)["error"]:
        write_text(problems, loaded.texts, console(stderr=True))
        click.echo("No edition was written.", err=True)
        raise SystemExit(1)
    refuse_outside(path, course_dir)
    data = edition_of(answers, loaded.texts, version, date)
    write_file(path, (json.dumps(data, ensure_ascii=False, indent=1, sort_keys=True) + "\n").encode())
    click.echo(f"Wrote {one_line(path)}: edition {version} of {date}.")
