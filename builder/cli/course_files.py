"""How commands write into a course: within its folder, and each file as a whole."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import click

from builder.problems.printable import one_line


def refuse_outside(path: Path, course_dir: Path) -> None:
    """Ends the command where a link leads out of the course: nothing is written elsewhere."""
    if not Path(os.path.realpath(path)).is_relative_to(os.path.realpath(course_dir)):
        raise click.UsageError(
            f"{one_line(path)} would be written outside the course, since a link leads there. "
            "Put a real file or folder in the place of the link."
        )


def write_file(path: Path, data: bytes) -> None:
    """Writes a new file, or changes one as a whole; a link to it stays a link."""
    path.parent.mkdir(parents=True, exist_ok=True)
    if not path.exists():
        with path.open("xb") as stream:
            stream.write(data)
        return
    file = Path(os.path.realpath(path))
    changed = file.with_name(f".{file.name}.changed")
    try:
        changed.write_bytes(data)
        shutil.copymode(file, changed)
        changed.replace(file)
    finally:
        changed.unlink(missing_ok=True)
