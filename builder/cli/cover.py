"""`casetrue cover`: which rules, outcomes, cautions and lines no client of the course reaches."""

from __future__ import annotations

import json
from pathlib import Path

import click
from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from builder.answers import Answers
from builder.checks import plain
from builder.course import Course, NumberScale
from builder.decide.coverage import Coverage, LineCover
from builder.source.kinds import CASE, CAUTION, MEASURE, TABLE
from builder.words import ENGLISH
from builder.words import sentences as say
from builder.words.numbers import number, quantity

from .options import console, course_option, format_option, load_course, unread, unsound


@click.command("cover")
@course_option
@format_option("json")
def command(course_dir: Path, form: str) -> None:
    """Show which rules, outcomes, cautions and lines no client of the course reaches.

    To people nothing is shown of a course in which something is broken; other programs get what there is.

    Exit code 0: shown. 1: something that the answer rests on is broken. 2: wrong use, or no course there.
    """
    loaded = load_course(course_dir)
    answers = Answers(loaded.course)
    broken = unread(loaded, MEASURE, TABLE, CAUTION, CASE) or unsound(answers.space)
    if form == "json":
        click.echo(json.dumps(document(answers.coverage), ensure_ascii=False, indent=2, allow_nan=False))
    elif not broken:
        write(loaded.course, answers.coverage, console())
    if broken:
        click.echo(f"This cannot be counted in full, since something is broken: {broken}.", err=True)
        click.echo("`casetrue check` says what to mend.", err=True)
        raise SystemExit(1)


def document(found: Coverage) -> dict[str, object]:
    """What `--format json` prints."""
    return {
        "clients": found.clients,
        "rules": [{"table": one.table, "rule": one.rule, "possible": one.possible} for one in found.rules],
        "outcomes": [{"table": table, "outcome": outcome} for table, outcome in found.outcomes],
        "cautions": list(found.cautions),
        "lines": [
            {
                "measure": line.measure,
                "at": plain(line.at),
                "drawn_by": list(line.drawn_by),
                "reached": line.reached,
                "nearest": line.nearest,
                "distance": None if line.distance is None else plain(line.distance),
                "standard_errors": line.errors,
            }
            for line in found.lines
        ],
    }


def write(course: Course, found: Coverage, out: Console) -> None:
    """Prints what no client reaches, then every line with the client nearest to it."""
    out.print(Text(f"{found.clients} clients" if found.clients != 1 else "1 client", "bold"))
    _part(
        out,
        "Rules that decide no client",
        [f"{one.table}: {one.rule}" + ("" if one.possible else " (nobody can)") for one in found.rules],
    )
    _part(
        out,
        "Outcomes that no client comes to",
        [f"{table}: {say.outcome_label(course, table, outcome)}" for table, outcome in found.outcomes],
    )
    _part(
        out,
        "Cautions that no client meets",
        [f"{course.cautions[name].title} ({course.cautions[name].level})" for name in found.cautions],
    )
    far = [line for line in found.lines if not line.reached]
    near = [line for line in found.lines if line.reached]
    _part(out, "Lines that no client comes near", [_line(course, line) for line in far])
    _part(out, "Lines that a client comes near", [_line(course, line) for line in near])


def _part(out: Console, title: str, lines: list[str]) -> None:
    out.print()
    out.print(Text(f"{title}: {len(lines) or 'none'}", "bold"))
    for line in lines:
        out.print(Padding(Text(line), (0, 0, 0, 3), expand=False))


def _line(course: Course, line: LineCover) -> str:
    """A line by the two steps that it lies between: no reading stands on it."""
    measure = course.measures[line.measure]
    assert isinstance(measure.scale, NumberScale)
    unit, half = measure.scale.unit, measure.scale.step / 2
    place = f"between {number(ENGLISH, line.at - half)} and {quantity(ENGLISH, line.at + half, unit)}"
    said = f"{measure.label} {place} ({', '.join(line.drawn_by)})"
    if line.distance is None:
        return f"{said}: nobody has a reading"
    errors = "" if line.errors is None else f", {line.errors:.1f} standard errors"
    return f"{said}: nearest {line.nearest}, {quantity(ENGLISH, line.distance, unit)} away{errors}"
