"""`casetrue build`: checks the course, then writes its site."""

from __future__ import annotations

from pathlib import Path

import click

from builder.problems.printable import one_line

from .options import course_option
from .place import place_of, tidy_up
from .written import Written


@click.command("build")
@course_option
@click.option(
    "--out",
    "out",
    type=click.Path(path_type=Path, file_okay=False),
    required=True,
    metavar="DIR",
    help="The folder for the site, outside the course: a new one, an empty one, or a site built before.",
)
def command(course_dir: Path, out: Path) -> None:
    """Check a course, then write its site.

    The new site replaces the one before as a whole. DIR stays as it was if the course has an error, if
    nothing has changed, or if DIR holds a file that no build wrote.

    Exit code 0: written, or nothing to do. 1: errors. 2: wrong use, no course there, or trouble with files.
    """
    site = place_of(out, course_dir)
    tidy_up(site)
    written = Written(course_dir, site)
    told = written.told()
    if told is not None:
        click.echo(f"{told}Nothing has changed since this was written: {one_line(site)}", err=True)
        return
    from .making import make  # with MkDocs, which takes long to import

    told = make(course_dir, site)
    written.keep(told)
    click.echo(f"Written: {one_line(site)}", err=True)
