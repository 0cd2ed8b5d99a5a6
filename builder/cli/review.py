"""`casetrue review`: notes in a file of the course that a part of it was reviewed."""

from __future__ import annotations

from pathlib import Path

import click

from builder.checks.reviews import Reviewed, reviewed
from builder.problems.nearest import nearest_word
from builder.problems.printable import one_line
from builder.source.rewriting import with_entry
from builder.source.texts import control_fault

from .course_files import refuse_outside, write_file
from .options import course_option, day, load_course

_FEW = 8


@click.command("review")
@click.argument("part")
@course_option
@click.option(
    "--role", required=True, help="The reviewer's profession; of a caution or drill, a clinician's."
)
@click.option("--by", required=True, metavar="NAME", help="The reviewer's name.")
@click.option("--on", metavar="DATE", help="The day of the review, as 2026-06-01; else today.")
@click.option("--due", metavar="DATE", help="The day by which it is to be reviewed again.")
@click.option(
    "--not-a-clinician",
    "lay",
    is_flag=True,
    help="The reviewer is no licensed clinician; pages still say that none has reviewed it.",
)
@click.option("--today", metavar="DATE", help="What day it is, as 2026-06-01.")
def command(
    part: str,
    course_dir: Path,
    role: str,
    by: str,
    on: str | None,
    due: str | None,
    lay: bool,
    today: str | None,
) -> None:
    """Note that somebody has reviewed PART of the course, as it stands now.

    PART is a caution, drill, table, exercise or written question, such as `caution:heel_pain`; the name alone
    will do where only one part has it. Note only what has truly been done.

    Exit code 0: written. 2: wrong use, no course there, or it could not be written safely.
    """
    entry: dict[str, str | bool] = {"role": _said(role, "--role"), "by": _said(by, "--by")}
    entry["on"] = made = day(on or today, "--on")
    if made > day(today):
        raise click.BadParameter("No review has been made on a day that is still to come.", param_hint="--on")
    if due is not None:
        entry["due"] = again = day(due, "--due")
        if again <= made:
            raise click.BadParameter("The next review must be later than this one.", param_hint="--due")
    found = _found(tuple(reviewed(load_course(course_dir).course)), part)
    entry["text"] = found.part.digest
    if lay:
        entry["clinician"] = False
    origin = found.part.origin
    path = course_dir / origin.file
    refuse_outside(path, course_dir)
    changed = with_entry(path.read_bytes(), origin.path, "reviewed", entry)
    if changed is None:
        raise click.UsageError(
            f"The review cannot be written into {one_line(path)} without touching something else. Write it "
            f"by hand, in one line of {found.what}: reviewed: {{role: ..., by: ..., on: {made}, "
            f'text: "{entry["text"]}"{", clinician: false" if lay else ""}}}'
        )
    write_file(path, changed)
    click.echo(f"Wrote into {one_line(path)} that {found.what} was reviewed on {made}.")
    if found.is_needed and lay:
        click.echo("Its page says who reviewed it, and still that no clinician has.")
    click.echo("`casetrue check` tells when it changes after that.")


def _said(text: str, option: str) -> str:
    """A text for one line of a file."""
    said = " ".join(text.split())
    if not said or control_fault(said):
        raise click.BadParameter("Write it in words.", param_hint=option)
    return said


def _found(parts: tuple[Reviewed, ...], named: str) -> Reviewed:
    """The part of this subject or name. Ends the command where there is none, or several."""
    found = [one for one in parts if named in (one.subject, one.subject.partition(":")[2])]
    if len(found) == 1:
        return found[0]
    if found:
        subjects = ", ".join(one.subject for one in found)
        raise click.UsageError(f"Several parts are called {one_line(named)}. Say which: {subjects}.")
    known = [one.subject for one in parts]
    near = nearest_word(named, [*known, *(subject.partition(":")[2] for subject in known)])
    hint = f" Did you mean {near}?" if near else ""
    if not near and 0 < len(known) <= _FEW:
        hint = f" Choose from: {', '.join(known)}."
    raise click.UsageError(
        f"There is no caution, drill, table, exercise or written question {one_line(named)} that can be "
        f"read.{hint} `casetrue check` tells what cannot be read."
    )
