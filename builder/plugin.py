"""The seam to MkDocs: puts our pages among its own, in any theme. The work is in `site/`; here are events."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Literal

from mkdocs.config import base
from mkdocs.config import config_options as options
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger

from builder.answers import Answers
from builder.checks import check
from builder.checks.active import active
from builder.problems import Problem
from builder.problems.printable import printable
from builder.problems.tally import summary
from builder.site import Site
from builder.site.bodies import anchors, to_classes, with_edition
from builder.site.compiled import COMPILED
from builder.site.hosted import Hosted
from builder.site.listed import keep_listed
from builder.site.offline import write_lists
from builder.site.policy import with_policy
from builder.site.preview import Preview
from builder.source import Loaded, NoCourse, load
from builder.words import words_for

if TYPE_CHECKING:
    from jinja2 import Environment
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.livereload import LiveReloadServer
    from mkdocs.structure.files import Files
    from mkdocs.structure.nav import Navigation
    from mkdocs.structure.pages import Page as MkDocsPage
    from mkdocs.utils.templates import TemplateContext

log = get_plugin_logger("casetrue")

FIRST, LAST = 100, -100
"""Before and after every other plugin."""


class CourseFaults(PluginError):
    """The course has errors, so no site is made of it."""

    def __init__(self, loaded: Loaded, problems: tuple[Problem, ...]) -> None:
        self.loaded = loaded
        self.problems = problems
        super().__init__("\n".join(_told(one) for one in problems if one.severity == "error"))


def _told(problem: Problem) -> str:
    hint = f" {problem.hint}" if problem.hint else ""
    return printable(f"{problem.file}, line {problem.line}: {problem.code}: {problem.message}{hint}")


class CasetrueOptions(base.Config):  # type: ignore[no-untyped-call]
    course = options.Optional(options.Type(str))
    """The course folder. Default: the folder of mkdocs.yml."""


class CasetruePlugin(BasePlugin[CasetrueOptions]):  # type: ignore[no-untyped-call]
    """One instance a run: `mkdocs serve` keeps it from build to build."""

    faults: CourseFaults | None = None
    """What stopped the last build, for whoever runs MkDocs."""
    given: tuple[Loaded, Answers] | None = None
    """A course that was loaded and found without errors already; the next build takes it as it is."""
    _answers: Answers | None = None
    """While serving, those of the last build that began."""
    for_educator = False
    """Whether the educator's own pages are served; no site that is built holds them."""
    preview: Preview | None = None
    """While serving, what stands between the server and the builds."""

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        self.preview = Preview() if command == "serve" else None

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        loaded, answers = self._take_given() or self._load(config)
        self._answers = answers if self.preview else None
        self._lesson_files = loaded.lesson_files
        told = check(loaded, answers=answers) if self.for_educator and self.preview else None
        is_served = self.preview is not None
        site = Site(answers, loaded.texts, told, is_served=is_served)
        self._hosted = Hosted(site, config, is_served=is_served)
        self._hosted.configure()
        return config

    def _take_given(self) -> tuple[Loaded, Answers] | None:
        given, self.given = self.given, None
        return given

    def _load(self, config: MkDocsConfig) -> tuple[Loaded, Answers]:
        try:
            loaded = load(self.folder(config))
        except NoCourse as missing:
            raise PluginError(str(missing)) from None
        answers = Answers(loaded.course, words_for(loaded.course.about.language), self._answers)
        problems = check(loaded, answers=answers)
        self.faults = None
        if any(problem.severity == "error" for problem in problems):
            self.faults = CourseFaults(loaded, problems)
            raise self.faults
        if problems:
            log.info("%s `casetrue check` tells more.", summary(problems))
        return loaded, answers

    def folder(self, config: MkDocsConfig) -> Path:
        """The course folder."""
        beside = Path(config.config_file_path).parent if config.config_file_path else Path()
        return beside / self.config.course if self.config.course else beside

    @event_priority(LAST)
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        keep_listed(files, self._lesson_files, self.folder(config), config)
        self._hosted.add_to(files)
        return files

    def on_page_markdown(
        self, markdown: str, /, *, page: MkDocsPage, config: MkDocsConfig, files: Files
    ) -> str:
        self._hosted.describe(page)
        return markdown

    @event_priority(LAST)
    def on_page_content(self, html: str, /, *, page: MkDocsPage, config: MkDocsConfig, files: Files) -> str:
        found = next(active(html), None) if config.theme.name == "casetrue" else None
        if found is not None:
            # An extension of Markdown brought what no check could see.
            raise PluginError(f"{page.file.src_uri}: `{found.what}` would act by itself; take it out.")
        made = self._hosted.page_of(page)
        if made is not None and not self.preview:
            page.present_anchor_ids = (page.present_anchor_ids or set()) | anchors(made.body)
        return to_classes(html)

    def on_nav(self, nav: Navigation, /, *, config: MkDocsConfig, files: Files) -> Navigation:
        self._nav = nav
        return nav

    def on_env(self, env: Environment, /, *, config: MkDocsConfig, files: Files) -> Environment:
        if config.theme.name == "casetrue":
            env.bytecode_cache = COMPILED
        self._hosted.surround(env, self._nav, files)
        if self.preview is not None:
            self.preview.unwritten = self._hosted.take_unwritten(files)
        return env

    @event_priority(LAST)
    def on_page_context(
        self, context: TemplateContext, /, *, page: MkDocsPage, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        body = self._hosted.body(page)
        if body is not None:
            page.content = body
        return context

    @event_priority(LAST)
    def on_post_page(self, output: str, /, *, page: MkDocsPage, config: MkDocsConfig) -> str:
        own = config.theme.name == "casetrue"
        output = with_edition(output, self._hosted.site.edition)
        return output if self.preview else with_policy(output, page.content or "", own=own)

    @event_priority(LAST)
    def on_post_template(self, output: str, /, *, template_name: str, config: MkDocsConfig) -> str:
        if not template_name.endswith(".html"):
            return output
        output = with_edition(output, self._hosted.site.edition)
        return output if self.preview else with_policy(output, own=config.theme.name == "casetrue")

    @event_priority(LAST)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        if not self.preview:
            write_lists(self._hosted.site, Path(config.site_dir))

    @event_priority(FIRST)
    def on_serve(
        self, server: LiveReloadServer, /, *, config: MkDocsConfig, builder: object
    ) -> LiveReloadServer:
        watched = [path for path in (config.docs_dir, config.config_file_path) if path]
        (self.preview or Preview()).serve(server, self.folder(config), watched)
        return server
