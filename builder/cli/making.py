"""Makes a site aside, then moves it to its place."""

from __future__ import annotations

from pathlib import Path

import click
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, ConfigurationError

from builder.answers import Answers
from builder.checks import check
from builder.plugin import CasetruePlugin
from builder.problems.printable import one_line
from builder.problems.tally import counts, summary
from builder.source import Loaded
from builder.words import words_for

from .hosting import Hosting, hosting, messages
from .manifest import write_manifest
from .options import console, day, load_course
from .place import aside, move_in, refuse_others


def make(course_dir: Path, site: Path) -> str:
    """Checks the course and writes its site; returns what there was to tell. Ends the command on errors, with
    `site` as it was. Raises OSError, with `site` as it was."""
    day(None)
    loaded = load_course(course_dir)
    refuse_others(site)
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
    as_it_was = f"The site was not built; {one_line(site)} is as it was."
    with hosting(course_dir, loaded.course) as host, aside(site) as folder, messages():
        try:
            _build(host, (loaded, answers), folder)
            write_manifest(folder)
            move_in(folder, site)
        except (Abort, ConfigurationError) as stopped:
            click.echo(f"{stopped}\n{as_it_was}", err=True)
            raise SystemExit(1) from None
        except OSError as trouble:
            _name_for_people(trouble, folder, site)
            trouble.add_note(as_it_was)
            raise
    return told


def _name_for_people(trouble: OSError, folder: Path, site: Path) -> None:
    """Names the place of a file in the site, where the trouble is with the file made aside."""
    named = trouble.filename
    if isinstance(named, str) and Path(named).is_relative_to(folder):
        trouble.filename = str(site / Path(named).relative_to(folder))
    elif named is None:
        trouble.filename = str(site)


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
