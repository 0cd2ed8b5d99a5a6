"""The `casetrue` command. Each subcommand is a file of this folder, imported only when it is asked for."""

from __future__ import annotations

import atexit
import contextlib
import errno
import gc
import io
import os
import sys
import traceback
from importlib import import_module
from pathlib import Path
from typing import Any

import click

from builder import __version__
from builder.problems.trouble import sentence

COMMANDS = ("build", "check", "cover", "edition", "explain", "new", "records", "review", "serve", "task")
"""Modules of this folder, each with a `command`."""

WRONG_USE = 2
"""Exit code where a command cannot do what it was asked; click uses it too."""
FAULT = 3
"""Exit code where the program itself is at fault: neither the course nor its use."""


class _Commands(click.Group):
    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f"builder.cli.{cmd_name}").command
        assert isinstance(command, click.Command)
        return command

    def main(self, *given: Any, **named: Any) -> Any:
        """Trouble with a file, a folder or a disk is no fault in the course, nor one of ours."""
        try:
            return super().main(*given, **named)
        except OSError as trouble:
            if trouble.errno == errno.EPIPE or _traced():
                raise
            with contextlib.suppress(OSError):
                notes = getattr(trouble, "__notes__", ())
                click.echo(" ".join(("Error:", sentence(trouble), *notes)), err=True)
            sys.exit(WRONG_USE)


@click.command(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="casetrue")
def casetrue() -> None:
    """Builds training sites for movement coaches from measures, decision tables and invented clients."""


def main() -> None:
    """Runs the command line.

    Exit codes: 0 no error, 1 errors in the course, 2 wrong use or trouble with files, 3 our own fault.
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    gc.disable()  # a command ends before looking for cycles would pay; `serve`, which stays, does look
    atexit.register(gc.freeze)  # nor does Python look through all that was made once more when it ends
    try:
        casetrue.main(prog_name="casetrue")
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)
    except Exception as fault:
        if _traced():
            raise
        with contextlib.suppress(OSError):
            print(_apology(fault), file=sys.stderr)
        sys.exit(FAULT)
    finally:
        gc.enable()


def _traced() -> bool:
    return bool(os.environ.get("CASETRUE_TRACE"))


def _apology(fault: Exception) -> str:
    frames = traceback.extract_tb(fault.__traceback__)
    where = f"{Path(frames[-1].filename).name}, line {frames[-1].lineno}" if frames else "unknown"
    what = f"{type(fault).__name__}: {fault}".splitlines()[0]
    return (
        "casetrue stopped because of a fault in itself, not in your course. Nothing was written.\n"
        f"Please report this: {what} ({where}).\n"
        "CASETRUE_TRACE=1 before the command shows more."
    )
