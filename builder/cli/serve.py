"""`casetrue serve`: the site on this machine, renewed as files change."""

from __future__ import annotations

from pathlib import Path

import click
from mkdocs.commands.serve import serve
from mkdocs.exceptions import Abort, ConfigurationError

from builder.problems.text import write_text
from builder.plugin import CasetruePlugin, CourseFaults

from .hosting import hosting, messages
from .options import console, course_option, load_course

HOST = "127.0.0.1"
"""This machine alone."""


@click.command("serve")
@course_option
@click.option("--port", type=click.IntRange(1, 65535), default=8000, show_default=True, help="The port to serve on.")
def command(course_dir: Path, port: int) -> None:
    """Show the site on this machine, and renew it as files change. Control-C ends it."""
    loaded = load_course(course_dir)
    with hosting(course_dir, loaded.course) as host, messages():
        try:
            serve(
                config_file=str(host.config_file),
                dev_addr=f"{HOST}:{port}",
                **({"docs_dir": str(host.lessons)} if host.lessons else {}),
            )
        except (Abort, ConfigurationError) as stopped:
            click.echo(str(stopped), err=True)
            raise SystemExit(1) from None
        except OSError as taken:
            raise click.UsageError(f"The site cannot be served on port {port}: {taken.strerror}.") from None
