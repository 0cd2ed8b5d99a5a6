"""`casetrue new`: a file to start from, which passes the check as it is."""

from __future__ import annotations

import os
import re
from pathlib import Path

import click

from builder.course import Course
from builder.problems.printable import one_line
from builder.source import Loaded
from builder.source.kinds import MEASURE

from . import proposals, starters
from .course_files import refuse_outside, write_file
from .options import course_option, load_course

KINDS = ("case", "table", "caution", "question", "exercise", "position", "drill")
_FOLDERS = {
    "case": "cases",
    "table": "tables",
    "caution": "cautions",
    "question": "questions",
    "exercise": "exercises",
    "position": "positions",
    "drill": "drills",
}
_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_-]{0,99}")
_FIRST_OBJECTIVE = "first-objective"


@click.command("new")
@click.argument("kind", type=click.Choice(KINDS))
@click.argument("name")
@course_option
def command(kind: str, name: str, course_dir: Path) -> None:
    """Write a new file of the course to start from.

    Its comments say what each line is for. It passes the check as it is.

    Exit code 0: written. 2: wrong use, no course there, or something must be written first.
    """
    loaded = load_course(course_dir)
    files = _files(course_dir, loaded, kind, _valid(name, kind, loaded.course))
    for path in files:
        refuse_outside(path, course_dir)
    for path, text in files.items():
        write_file(path, text.encode())
        click.echo(f"Wrote {one_line(path)}.")
    click.echo("Fill in your own words, then run `casetrue check`.")


def _valid(name: str, kind: str, course: Course) -> str:
    """The name, if it may be used. Ends the command otherwise."""
    if not _NAME.fullmatch(name) or name == "index":
        raise click.BadParameter(
            f"{one_line(name)} is no name. It starts with a letter; letters, digits, - and _ may follow. "
            "It is not `index`.",
            param_hint="NAME",
        )
    taken = {
        "case": course.cases,
        "table": {**course.tables, **course.measures},
        "caution": course.cautions,
        "question": course.questions,
        "exercise": course.exercises,
        "position": course.positions,
        "drill": course.drills,
    }[kind]
    for other in taken:
        if other.casefold() == name.casefold():
            raise click.BadParameter(f"{other} is taken in this course.", param_hint="NAME")
    return name


def _files(course_dir: Path, loaded: Loaded, kind: str, name: str) -> dict[Path, str]:
    """What to write, by path. Ends the command where that would overwrite something of the educator's."""
    course = loaded.course
    path = course_dir / _FOLDERS[kind] / f"{name}.yml"
    for there in (path, path.with_suffix(".yaml")):
        if os.path.lexists(there):
            raise click.UsageError(f"{one_line(there)} is there already, and is left as it is.")
    if kind in ("case", "caution") and not course.measures:
        raise click.UsageError(_measures_first(loaded))
    match kind:
        case "case":
            return {path: starters.case_text(course, proposals.client(course, name))}
        case "table":
            text = starters.table_text(proposals.table(course, name))
            return {path: text, **_pathway(course_dir, loaded, name)}
        case "caution":
            halves = next(proposals.splits(course), None)
            if halves is None:
                raise click.UsageError(
                    "No measure is read of every client, so no caution could look at all of them. "
                    "Give every client a reading of one measure first."
                )
            return {path: starters.caution_text(name, halves)}
        case "question":
            objective = next(iter(course.objectives), _FIRST_OBJECTIVE)
            return {**_objectives(course_dir, course), path: starters.question_text(name, objective)}
        case "position":
            return {path: starters.position_text(name)}
        case "drill":
            return {path: starters.drill_text(course, name)}
        case _:
            return {path: starters.exercise_text(proposals.exercise(course, name))}


def _measures_first(loaded: Loaded) -> str:
    """What to do in a course that measures nothing, where a client could have no reading."""
    file = next((name for name in loaded.texts if MEASURE.holds(name)), None)
    if file is not None:
        return f"Nothing in {file} can be used yet. Mend it first; `casetrue check` says how."
    example = "measures: {pain: {label: Pain, kind: yes_no}}"
    return f"The course has no {MEASURE.where}. Write it first, for example with this line: {example}"


def _objectives(course_dir: Path, course: Course) -> dict[Path, str]:
    """A first objective for a course without any, since a question must have one."""
    path = course_dir / "objectives.yml"
    if course.objectives or os.path.lexists(path):
        return {}
    return {path: starters.objectives_text(_FIRST_OBJECTIVE)}


def _pathway(course_dir: Path, loaded: Loaded, name: str) -> dict[Path, str]:
    """course.yml with the table at the end of its `pathway`, which must list every table."""
    about = loaded.course.about
    if not about.pathway:
        return {}
    last = about.origin.at("pathway", len(about.pathway) - 1)
    path = course_dir / last.file
    lines = path.read_bytes().decode("utf-8").split("\n")
    line = lines[last.line - 1] if last.line <= len(lines) else ""
    before, written = line[: last.column - 1], line[last.column - 1 :]
    end = re.match(rf"""(["']?){re.escape(about.pathway[-1])}\1""", written)
    if end is None:
        raise click.UsageError(f"Write {name} into the `pathway` of {last.file} first, at its end.")
    if before.strip() == "-":
        ending = "\r" if line.endswith("\r") else ""
        lines.insert(last.line, f"{before}{name}{ending}")
    else:
        lines[last.line - 1] = f"{before}{end[0]}, {name}{written[end.end() :]}"
    return {path: "\n".join(lines)}
