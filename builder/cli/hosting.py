"""MkDocs as our commands run it: its configuration found or supplied, its messages on standard error."""

from __future__ import annotations

import contextlib
import logging
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from builder.course import Course

NAMES = ("mkdocs.yml", "mkdocs.yaml")


@dataclass(frozen=True, slots=True)
class Hosting:
    """Where MkDocs finds what."""

    config_file: Path
    lessons: Path | None
    """In place of the `docs_dir` of `config_file`; None leaves that."""


@contextlib.contextmanager
def hosting(course_dir: Path, course: Course) -> Iterator[Hosting]:
    """MkDocs' configuration for a course: the educator's own, or one supplied for as long as it is needed.
    Without lessons an empty folder stands in for them."""
    with tempfile.TemporaryDirectory(prefix="casetrue-") as folder:
        empty = Path(folder) / "lessons"
        empty.mkdir()
        lessons = course_dir / "lessons"
        own = own_configuration(course_dir)
        if own is not None:
            yield Hosting(own.resolve(), None if lessons.is_dir() else empty)
            return
        supplied = Path(folder) / NAMES[0]
        settings = {
            "site_name": course.about.title,
            "docs_dir": str(lessons.resolve() if lessons.is_dir() else empty),
            "theme": "casetrue",
            "plugins": [{"casetrue": {"course": str(course_dir.resolve())}}],
        }
        import yaml  # a course with nothing new needs no configuration

        supplied.write_text(yaml.safe_dump(settings, allow_unicode=True), encoding="utf-8")
        yield Hosting(supplied, None)


def own_configuration(course_dir: Path) -> Path | None:
    """The educator's own configuration of MkDocs."""
    return next((course_dir / name for name in NAMES if (course_dir / name).is_file()), None)


_UNTOLD = ("Cleaning site directory", "Building documentation to directory")
"""What MkDocs says of the folder aside, which is no business of the educator's."""


class _Handler(logging.Handler):
    def emit(self, record: logging.LogRecord) -> None:
        if record.getMessage().startswith(_UNTOLD):
            return
        level = "" if record.levelno <= logging.INFO else f"{record.levelname.lower()}: "
        click.echo(level + record.getMessage(), err=True)


@contextlib.contextmanager
def messages() -> Iterator[None]:
    """What MkDocs and its plugins say, on standard error while the block runs."""
    logger = logging.getLogger("mkdocs")
    handler = _Handler()
    before = logger.level
    logger.addHandler(handler)
    logger.setLevel(logging.INFO)
    try:
        yield
    finally:
        logger.removeHandler(handler)
        logger.setLevel(before)
        sys.stderr.flush()
