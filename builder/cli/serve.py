"""`casetrue serve`: the site on this machine, renewed as files change."""

from __future__ import annotations

import gc
from pathlib import Path
from typing import Any

import click
from mkdocs.commands.serve import serve
from mkdocs.exceptions import Abort, ConfigurationError

from builder.checks import check
from builder.problems.tally import counts
from builder.problems.text import write_text

from .hosting import hosting, messages
from .options import console, course_option, load_course

HOST = "127.0.0.1"
"""This machine alone."""


@click.command("serve")
@course_option
@click.option("--port", type=click.IntRange(1, 65535), default=8000, show_default=True, help="The port.")
def command(course_dir: Path, port: int) -> None:
    """Show the site on this machine, and renew it as files change. Control-C ends it.

    An error that you make while it runs is told here and on every page, over the site as it was before.
    """
    loaded = load_course(course_dir)
    problems = check(loaded)
    if counts(problems)["error"]:
        write_text(problems, loaded.texts, console(stderr=True))
        click.echo("Mend the errors, then start again.", err=True)
        raise SystemExit(1)
    with hosting(course_dir, loaded.course) as host, messages():
        more: dict[str, Any] = {"docs_dir": str(host.lessons)} if host.lessons else {}
        gc.enable()
        try:
            serve(config_file=str(host.config_file), dev_addr=f"{HOST}:{port}", **more)
        except (Abort, ConfigurationError) as stopped:
            click.echo(str(stopped), err=True)
            raise SystemExit(1) from None
        except OSError as taken:
            raise click.UsageError(f"The site cannot be served on port {port}: {taken.strerror}.") from None
