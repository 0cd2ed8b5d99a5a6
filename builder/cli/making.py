"""Makes a site in a folder of its own, then puts it in its place."""

from __future__ import annotations

import contextlib
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import click
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, ConfigurationError

from builder.answers import Answers
from builder.checks import check
from builder.plugin import CasetruePlugin
from builder.problems.tally import counts, summary
from builder.source import Loaded
from builder.source.kinds import CONTENT_FOLDERS
from builder.words import words_for

from .hosting import Hosting, hosting, messages
from .options import console, load_course

MARKER = ".casetrue"
"""Names a folder as written by `casetrue build`, so that the next build may replace it."""
_MARKER_TEXT = "Written by `casetrue build`, which replaces the whole folder.\n"


def make(course_dir: Path, out: Path) -> str:
    """Checks the course and writes its site; returns what there was to tell. Ends the command on errors, with
    `out` as it was."""
    loaded = load_course(course_dir)
    _refuse_others(out, course_dir)
    answers = Answers(loaded.course, words_for(loaded.course.about.language))
    problems = check(loaded, answers=answers)
    found = counts(problems)
    if found["error"]:
        from builder.problems.text import write_text  # with rich, which a sound course does without

        write_text(problems, loaded.texts, console(stderr=True))
        click.echo("The site was not built.", err=True)
        raise SystemExit(1)
    told = f"{summary(problems)} `casetrue check` tells more.\n" if found["warning"] else ""
    click.echo(told, nl=False, err=True)
    with hosting(course_dir, loaded.course) as host, _aside(out) as folder, messages():
        try:
            _build(host, (loaded, answers), folder)
        except (Abort, ConfigurationError) as stopped:
            click.echo(f"{stopped}\nThe site was not built; {out} is as it was.", err=True)
            raise SystemExit(1) from None
        (folder / MARKER).write_text(_MARKER_TEXT, encoding="utf-8")
        _swap(folder, out)
    return told


def _refuse_others(out: Path, course_dir: Path) -> None:
    """Ends the command where the folder is not ours to write, or would be read as part of the course."""
    if out.exists() and any(out.iterdir()) and not (out / MARKER).is_file():
        raise click.UsageError(f"{out} was not written by casetrue and is not empty, so it is left alone.")
    course = course_dir.resolve()
    if out.is_relative_to(course) and out != course:
        folder = out.relative_to(course).parts[0]
        if folder.casefold() in CONTENT_FOLDERS:
            raise click.UsageError(
                f"{folder}/ belongs to the course, so no site can stand there. Choose another folder."
            )
    file = next((above for above in out.parents if above.exists() and not above.is_dir()), None)
    if file is not None:
        raise click.UsageError(f"{file} is a file, so no folder can stand in it.")


def _build(host: Hosting, given: tuple[Loaded, Answers], folder: Path) -> None:
    lessons = {"docs_dir": str(host.lessons)} if host.lessons else {}
    config = load_config(config_file=str(host.config_file), site_dir=str(folder), **lessons)
    _our_plugin(config, host).given = given
    config.plugins.on_startup(command="build", dirty=False)
    try:
        build(config)
    finally:
        config.plugins.on_shutdown()


def _our_plugin(config: MkDocsConfig, host: Hosting) -> CasetruePlugin:
    """Our plugin as the educator's configuration names it. Raises ConfigurationError where it does not."""
    for plugin in config.plugins.values():
        if isinstance(plugin, CasetruePlugin):
            return plugin
    raise ConfigurationError(
        f"{host.config_file.name} does not name the plugin. Write `- casetrue` under `plugins:`."
    )


@contextlib.contextmanager
def _aside(out: Path) -> Iterator[Path]:
    """A fresh folder on the same disk as `out`, gone afterwards unless it was moved."""
    out.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix=f".{out.name}-", dir=out.parent) as around:
        folder = Path(around) / "site"
        folder.mkdir()
        yield folder


def _swap(folder: Path, out: Path) -> None:
    """Puts `folder` in the place of `out`; what stood there stays until the new one is in place."""
    old = folder.parent / "old"
    if out.exists():
        out.rename(old)
    try:
        folder.rename(out)
    except OSError:
        if old.exists():
            old.rename(out)
        raise
    shutil.rmtree(old, ignore_errors=True)
