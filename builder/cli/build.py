"""`casetrue build`: checks the course, then writes its site."""

from __future__ import annotations

from pathlib import Path

import click

from .options import course_option
from .written import Written


@click.command("build")
@course_option
@click.option(
    "--out",
    "out",
    type=click.Path(path_type=Path, file_okay=False),
    required=True,
    metavar="DIR",
    help="The folder for the site. A folder that this command did not write is refused unless empty.",
)
def command(course_dir: Path, out: Path) -> None:
    """Check a course, then write its site.

    An error in the course leaves DIR as it was; so does a course in which nothing has changed.

    Exit code 0: written. 1: errors. 2: wrong use, or no course there.
    """
    out = out.resolve()
    written = Written(course_dir, out)
    told = written.told()
    if told is not None:
        click.echo(f"{told}Nothing has changed since this was written: {out}", err=True)
        return
    from .making import make  # with MkDocs, which takes long to import

    told = make(course_dir, out)
    written.keep(told)
    click.echo(f"Written: {out}", err=True)
