"""What several commands share: the course option, loading, the day, the console."""

from __future__ import annotations

import contextlib
import os
import re
import sys
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from builder.problems.printable import one_line

if TYPE_CHECKING:
    from rich.console import Console

    from builder.decide.space import Space
    from builder.source import Loaded
    from builder.source.kinds import Kind

course_option: Callable[[Callable[..., Any]], Callable[..., Any]] = click.option(
    "--course",
    "course_dir",
    type=click.Path(path_type=Path),
    default=Path("course_src"),
    show_default=True,
    metavar="DIR",
    help="The folder with course.yml.",
)


def format_option(
    *others: str, help: str = "How to write it: for people, or for other programs."
) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """`--format`, given to the command as `form`: text, or one of the others."""
    choice = click.Choice(["text", *others])
    return click.option("--format", "form", type=choice, default="text", show_default=True, help=help)


def load_course(course_dir: Path) -> Loaded:
    """The course in a folder. Ends the command with exit code 2 where there is none."""
    from builder.source import NoCourse, load  # with all that reads YAML: a build of nothing new needs none

    try:
        return load(course_dir)
    except NoCourse as missing:
        raise click.UsageError(one_line(missing)) from None


def unread(loaded: Loaded, *kinds: Kind) -> str:
    """The files of these kinds that could not be read in full, in words; empty where all could."""
    wrong = {one.file for one in loaded.problems if one.severity == "error"}
    return ", ".join(sorted(file for file in wrong if any(kind.holds(file) for kind in kinds)))


def unsound(space: Space) -> str:
    """The files of tables and cautions that name what is not there; empty where there are none."""
    course = space.course
    tables = {table.origin.file for name, table in course.tables.items() if name not in space.tables}
    cautions = {one.origin.file for name, one in course.cautions.items() if name not in space.cautions}
    return ", ".join(sorted(tables | cautions))


def day(given: str | None, option: str = "--today") -> str:
    """A day, as YYYY-MM-DD: what was given with an option, else SOURCE_DATE_EPOCH, else the clock (UTC)."""
    if given is not None:
        if re.fullmatch(r"\d{4}-\d{2}-\d{2}", given, re.ASCII):
            try:
                return date.fromisoformat(given).isoformat()
            except ValueError:
                pass
        raise click.BadParameter(f"{given} is no day; write it as 2026-06-01.", param_hint=option)
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    if epoch is None:
        return datetime.now(UTC).date().isoformat()
    try:
        return datetime.fromtimestamp(int(epoch), UTC).date().isoformat()
    except (ValueError, OverflowError, OSError):
        raise click.UsageError(
            "SOURCE_DATE_EPOCH is not a number of seconds. Set it to one, such as 1780272000, or unset it."
        ) from None


NARROWEST, WIDEST, WIDTH = 20, 1000, 80
"""Columns in which a text can still be read, and those where nobody knows how many there are."""


def console(stderr: bool = False) -> Console:
    """A console that takes every text as it is."""
    from rich.console import Console  # not every command has something to show in colour

    stream = sys.stderr if stderr else sys.stdout
    return Console(file=stream, width=_width(), height=25, highlight=False, markup=False, emoji=False)


def _width() -> int:
    """As COLUMNS says, else as wide as the terminal. A width that cannot be one says nothing."""
    told = []
    with contextlib.suppress(ValueError):
        told.append(int(os.environ.get("COLUMNS", "")))
    for handle in (0, 1, 2):
        with contextlib.suppress(OSError):
            told.append(os.get_terminal_size(handle).columns)
    return next((min(width, WIDEST) for width in told if width >= NARROWEST), WIDTH)
