"""The MkDocs seam: our pages among MkDocs' own, in any theme.

Client pages are made by the shell method (site/shell.py); every other page is a generated file whose body is
set last of all, so that stock search finds nothing to index in it. The work is in `site/`; here are events.
"""

from __future__ import annotations

import posixpath
from collections import defaultdict
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Literal
from urllib.parse import urljoin, urlsplit

from markupsafe import Markup
from mkdocs.commands.build import get_context
from mkdocs.config import base
from mkdocs.config import config_options as options
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page as MkDocsPage

from builder.checks import check
from builder.problems import Problem
from builder.problems.tally import summary
from builder.site import Page, Site, search, shell, uris
from builder.site.assets import assets, needed
from builder.site.bodies import anchors, opening, to_classes
from builder.site.compiled import COMPILED
from builder.site.frame import Frame
from builder.site.navigation import markdown, navigation
from builder.site.pages import pages
from builder.site.pages.home import home
from builder.site.policy import with_policy
from builder.site.preview import Preview
from builder.site.sitemap import sitemap
from builder.source import Loaded, NoCourse, load
from builder.words import words_for

if TYPE_CHECKING:
    from jinja2 import Environment
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.livereload import LiveReloadServer
    from mkdocs.utils.templates import TemplateContext

log = get_plugin_logger("casetrue")

FIRST, LAST = 100, -100
"""Before and after every other plugin."""
LOOKING = 0.2
"""Seconds from one look for changed files to the next, while serving."""


class CourseFaults(PluginError):
    """The course has errors, so no site is made of it."""

    def __init__(self, loaded: Loaded, problems: tuple[Problem, ...]) -> None:
        self.loaded = loaded
        self.problems = problems
        super().__init__("\n".join(_told(one) for one in problems if one.severity == "error"))


def _told(problem: Problem) -> str:
    hint = f" {problem.hint}" if problem.hint else ""
    return f"{problem.file}, line {problem.line}: {problem.code}: {problem.message}{hint}"


class CasetrueOptions(base.Config):  # type: ignore[no-untyped-call]
    course = options.Optional(options.Type(str))
    """The course folder. Default: the folder of mkdocs.yml."""


class CasetruePlugin(BasePlugin[CasetrueOptions]):  # type: ignore[no-untyped-call]
    """One instance a run: `mkdocs serve` keeps it from build to build."""

    faults: CourseFaults | None = None
    """What stopped the last build, for whoever runs MkDocs."""
    given: Loaded | None = None
    """A course that was loaded and found without errors already; the next build takes it as it is."""
    preview: Preview | None = None
    """While serving, what stands between the server and the builds."""

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        self.preview = Preview() if command == "serve" else None

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        loaded = self._load(config)
        self._site = Site(loaded.course, loaded.texts, words_for(loaded.course.about.language))
        made = list(pages(self._site))
        self._pages = {page.uri: page for page in made if isinstance(page, Page)}
        self._assets = [*assets(), *(asset for asset in made if not isinstance(asset, Page))]
        self._frame = Frame(self._site, self._pages)
        config.use_directory_urls = False
        if config.nav is None:
            # Our own theme leads to search beside whatever navigation there is.
            listed = self._pages.keys() - ({uris.SEARCH} if config.theme.name == "casetrue" else set())
            config.nav = navigation(self._site.words, listed)
            self._own_nav = True
        else:
            self._own_nav = False
        config.extra_css.append(uris.STYLE)
        script = options.ExtraScriptValue(uris.SCRIPT)
        script.defer = True
        config.extra_javascript.append(script)
        config.theme.static_templates.discard("sitemap.xml")
        if config.theme.name == "material":
            # Stock Material asks a foreign host for its type.
            config.theme["font"] = False
        return config

    def _load(self, config: MkDocsConfig) -> Loaded:
        if self.given is not None:
            loaded, self.given = self.given, None
            return loaded
        try:
            loaded = load(self.folder(config))
        except NoCourse as missing:
            raise PluginError(str(missing)) from None
        problems = check(loaded)
        self.faults = None
        if any(problem.severity == "error" for problem in problems):
            self.faults = CourseFaults(loaded, problems)
            raise self.faults
        if problems:
            log.info("%s `casetrue check` tells more.", summary(problems))
        return loaded

    def folder(self, config: MkDocsConfig) -> Path:
        """The course folder."""
        beside = Path(config.config_file_path).parent if config.config_file_path else Path()
        return beside / self.config.course if self.config.course else beside

    @event_priority(LAST)
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        language = self._site.course.about.language
        for file in [file for file in files if not needed(file.src_uri, language)]:
            files.remove(file)
        template = files.get_file_from_path("sitemap.xml")
        if template is not None and template.src_dir != config.docs_dir:
            files.remove(template)
        for page in self._pages.values():
            self._add(page, files, config)
        for folder in sorted({posixpath.dirname(page.uri) for page in self._pages.values() if page.grows}):
            file = File.generated(
                config,
                posixpath.join(folder, f"{shell.STEM}.md"),
                content="",
                inclusion=InclusionLevel.NOT_IN_NAV,
            )
            files.append(file)
        if self._own_nav:
            for lesson in self._site.lessons:
                file_there = files.get_file_from_path(lesson.file.removeprefix("lessons/"))
                if file_there is not None:
                    file_there.inclusion = InclusionLevel.NOT_IN_NAV
        files.append(File.generated(config, uris.SEARCH_INDEX, content=""))
        for asset in self._assets:
            files.append(File.generated(config, asset.uri, content=asset.text))
        if config.site_url and not self.preview:
            text = sitemap(config.site_url, self._addresses(files))
            files.append(File.generated(config, "sitemap.xml", content=text))
        return files

    def _add(self, page: Page, files: Files, config: MkDocsConfig) -> None:
        src_uri = page.uri if page.grows else markdown(page.uri)
        taken = files.get_file_from_path(src_uri) or files.get_file_from_path(markdown(page.uri))
        if taken is not None:
            if page.uri == uris.HOME:
                return
            raise PluginError(
                f"lessons/{taken.src_uri} has the address of a page that the builder makes. Rename it."
            )
        file = File.generated(config, src_uri, content="", inclusion=InclusionLevel.NOT_IN_NAV)
        files.append(file)

    def _addresses(self, files: Files) -> list[str]:
        lessons = [file.dest_uri for file in files.documentation_pages() if shell.STEM not in file.src_uri]
        return sorted({*lessons, *self._pages})

    def _page(self, page: MkDocsPage) -> Page | None:
        return self._pages.get(page.file.dest_uri)

    def on_page_markdown(
        self, markdown: str, /, *, page: MkDocsPage, config: MkDocsConfig, files: Files
    ) -> str:
        made = self._page(page)
        is_shell = page.file.name == shell.STEM
        source = shell.SOURCE if is_shell else made.source if made else None
        if source is not None and page.file.generated_by:
            page.edit_url = self._edit_url(source, config)
        if made is not None:
            page.meta.setdefault("title", made.title)
            page.meta.setdefault("description", made.description)
            if page.file.generated_by:
                page.meta["search"] = {"exclude": True}
        return markdown

    def _edit_url(self, source: str, config: MkDocsConfig) -> str | None:
        """A link to the source where the educator gave its whole address: half a one asks a foreign host."""
        absolute = urlsplit(config.edit_uri or "").scheme in ("http", "https")
        return urljoin(config.edit_uri or "", f"../{source}") if absolute and not config.repo_url else None

    @event_priority(LAST)
    def on_page_content(self, html: str, /, *, page: MkDocsPage, config: MkDocsConfig, files: Files) -> str:
        made = self._page(page)
        if made is not None:
            page.present_anchor_ids = (page.present_anchor_ids or set()) | anchors(made.body)
        return to_classes(html)

    def on_env(self, env: Environment, /, *, config: MkDocsConfig, files: Files) -> Environment:
        env.globals["casetrue"] = self._frame
        if config.theme.name == "casetrue":
            env.bytecode_cache = COMPILED
        self._env = env
        self._fill_shells(config, files)
        self._fill_search(files)
        return env

    def _fill_search(self, files: Files) -> None:
        """Here every lesson has its text, and no file is written yet."""
        words = self._site.words
        pages = [file.page for file in files.documentation_pages() if file.page and not file.generated_by]
        lessons = [
            search.lesson(words, page.file.dest_uri, Markup(page.title or "").striptags(), page.content or "")
            for page in pages
        ]
        asset = files.get_file_from_path(uris.SEARCH_INDEX)
        assert asset is not None
        asset.content_string = search.index(words, self._pages.values(), lessons).text

    def _fill_shells(self, config: MkDocsConfig, files: Files) -> None:
        """Draws one page a folder and fills every page that grows with the number of clients into it."""
        by_folder: Mapping[str, list[Page]] = defaultdict(list)
        for page in self._pages.values():
            if page.grows:
                by_folder[posixpath.dirname(page.uri)].append(page)
        done, total = 0, sum(map(len, by_folder.values()))
        unwritten: dict[str, Callable[[], str]] = {}
        for folder, some in by_folder.items():
            drawn = self._draw(
                files.get_file_from_path(posixpath.join(folder, f"{shell.STEM}.md")), config, files
            )
            try:
                cut = shell.Shell.cut(drawn)
            except ValueError as unfit:
                raise PluginError(str(unfit)) from None
            for page in some:
                file = files.get_file_from_path(page.uri)
                assert file is not None
                if self.preview is not None:
                    files.remove(file)
                    unwritten[page.uri] = partial(cut.fill, page)
                    continue
                file.content_string = cut.fill(page)
                done += 1
                if done % 500 == 0:
                    log.info("%d of %d client pages", done, total)
        if self.preview is not None:
            self.preview.unwritten = unwritten

    def _draw(self, file: File | None, config: MkDocsConfig, files: Files) -> str:
        assert file is not None
        assert file.page is not None
        files.remove(file)
        page = file.page
        page.title = shell.TITLE
        page.meta["description"] = shell.DESCRIPTION
        page.content = shell.BODY
        context = get_context(self._nav, files, config, page)
        drawn = self._env.get_template("main.html").render(context)
        return str(config.plugins.on_post_page(drawn, page=page, config=config))

    def on_nav(self, nav: Navigation, /, *, config: MkDocsConfig, files: Files) -> Navigation:
        self._nav = nav
        return nav

    @event_priority(LAST)
    def on_page_context(
        self, context: TemplateContext, /, *, page: MkDocsPage, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        made = self._page(page)
        if made is None:
            return context
        if made.uri == uris.HOME and not page.file.generated_by:
            made = home(self._site, opening(page.content or ""))
        page.content = made.body
        return context

    @event_priority(LAST)
    def on_post_page(self, output: str, /, *, page: MkDocsPage, config: MkDocsConfig) -> str:
        own = config.theme.name == "casetrue"
        return output if self.preview else with_policy(output, page.content or "", own=own)

    @event_priority(LAST)
    def on_post_template(self, output: str, /, *, template_name: str, config: MkDocsConfig) -> str:
        if self.preview or not template_name.endswith(".html"):
            return output
        return with_policy(output, own=config.theme.name == "casetrue")

    @event_priority(FIRST)
    def on_serve(
        self, server: LiveReloadServer, /, *, config: MkDocsConfig, builder: object
    ) -> LiveReloadServer:
        from watchdog.observers.polling import PollingObserver  # a build does without

        # MkDocs looks for changes twice a second, and waits for a tenth until they stop.
        watched = [path for path in (config.docs_dir, config.config_file_path) if path]
        for path in watched:
            server.unwatch(path)
        server.observer = PollingObserver(timeout=LOOKING)
        server.build_delay = LOOKING / 4
        for path in (*watched, str(self.folder(config))):
            server.watch(path)
        preview = self.preview or Preview()
        server.builder = preview.guard(server.builder)
        server.set_app(preview.over(server.serve_request, server.root, server.mount_path))
        return server
