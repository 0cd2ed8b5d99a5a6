"""`casetrue serve`: the site on this machine, renewed as files change."""

from __future__ import annotations

import contextlib
import errno
import gc
import socket
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import click
from mkdocs.commands.serve import serve
from mkdocs.exceptions import Abort, ConfigurationError

from builder.answers.addresses import EDUCATOR
from builder.checks import check
from builder.plugin import CasetruePlugin
from builder.problems.tally import counts
from builder.problems.text import write_text

from .hosting import hosting, messages
from .options import console, course_option, day, load_course

HOST = "127.0.0.1"
"""This machine alone."""
_PORT_TROUBLE = {
    errno.EADDRINUSE: "is taken by another program",
    errno.EACCES: "is kept for the system",
    errno.EPERM: "is kept for the system",
    errno.EADDRNOTAVAIL: "cannot be had on this machine",
}


@click.command("serve")
@course_option
@click.option(
    "--port",
    type=click.IntRange(1, 65535),
    default=8000,
    show_default=True,
    metavar="PORT",
    help="The port of the address, from 1 to 65535.",
)
@click.option(
    "--educator",
    is_flag=True,
    help="Serve pages for you as well: the question bank with its answers, checks, guessing and a workbook.",
)
def command(course_dir: Path, port: int, educator: bool) -> None:
    """Show the site on this machine, and renew it as files change.

    Stop it with Control-C. While it runs, an error in the course is shown here and on every page; the site
    stays as it was until the error is mended.

    Exit code 0: stopped. 1: errors. 2: wrong use, no course there, or trouble with files or the port.
    """
    day(None)
    loaded = load_course(course_dir)
    problems = check(loaded)
    if counts(problems)["error"]:
        write_text(problems, loaded.texts, console(stderr=True))
        click.echo("Mend the errors, then start again.", err=True)
        raise SystemExit(1)
    with _told_of(port):
        socket.create_server((HOST, port)).close()  # before a build that would be for nothing
    with hosting(course_dir, loaded.course) as host, messages():
        more: dict[str, Any] = {"docs_dir": str(host.lessons)} if host.lessons else {}
        gc.enable()
        CasetruePlugin.for_educator = educator
        if educator:
            click.echo(f"Your own pages: http://{HOST}:{port}/{EDUCATOR}", err=True)
        try:
            with _told_of(port):
                serve(config_file=str(host.config_file), dev_addr=f"{HOST}:{port}", **more)
        except (Abort, ConfigurationError) as stopped:
            click.echo(str(stopped), err=True)
            raise SystemExit(1) from None
        finally:
            CasetruePlugin.for_educator = False


@contextlib.contextmanager
def _told_of(port: int) -> Iterator[None]:
    """Ends the command where the port is not to be had."""
    try:
        yield
    except OSError as trouble:
        why = None if trouble.filename else _PORT_TROUBLE.get(trouble.errno or 0)
        if why is None:
            raise
        other = port + 1 if 1024 <= port < 65535 else 8000
        raise click.UsageError(f"Port {port} {why}. Choose another: --port {other}.") from None
