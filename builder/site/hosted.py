"""A course on its way through one build of MkDocs: which files there are, and what stands in them.

Pages that grow with the number of clients are made by the shell method (shell.py); every other page is a
generated file whose body is set last of all, so that stock search finds nothing to index in it.
"""

from __future__ import annotations

import posixpath
from collections import defaultdict
from collections.abc import Callable, Mapping
from functools import cached_property, partial
from typing import TYPE_CHECKING
from urllib.parse import urljoin, urlsplit

from markupsafe import Markup
from mkdocs.commands.build import get_context
from mkdocs.config import config_options as options
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files, InclusionLevel

from builder.answers import addresses

from . import search, shell
from .assets import assets, needed
from .bodies import opening
from .frame import Frame
from .navigation import markdown, navigation
from .page import Page
from .pages import pages
from .pages.home import home
from .site import Site
from .sitemap import sitemap
from .written_late import WrittenLate

if TYPE_CHECKING:
    from jinja2 import Environment
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.nav import Navigation
    from mkdocs.structure.pages import Page as MkDocsPage


class Hosted:
    """The pages of one site as MkDocs is given them."""

    def __init__(self, site: Site, config: MkDocsConfig, *, is_served: bool) -> None:
        self.site = site
        self._config = config
        self._is_served = is_served
        made = list(pages(site))
        self.pages = {page.uri: page for page in made if isinstance(page, Page)}
        self._assets = [*assets(), *(asset for asset in made if not isinstance(asset, Page))]
        self._frame = Frame(site, self.pages)
        self._has_own_nav = config.nav is None

    def configure(self) -> None:
        """Settles what our pages rely on."""
        config = self._config
        config.use_directory_urls = False
        if self._has_own_nav:
            # Our own theme leads to search beside whatever navigation there is.
            hidden = {addresses.SEARCH} if config.theme.name == "casetrue" else set()
            config.nav = navigation(self.site.words, self.pages.keys() - hidden)
        config.extra_css.append(addresses.STYLE)
        script = options.ExtraScriptValue(addresses.SCRIPT)
        script.defer = True
        config.extra_javascript.append(script)
        config.theme.static_templates.discard("sitemap.xml")
        if config.theme.name == "material":
            # Stock Material asks a foreign host for its type.
            config.theme["font"] = False

    def add_to(self, files: Files) -> None:
        """Puts our pages and assets among MkDocs' files, and takes out what no page needs."""
        config = self._config
        for file in [one for one in files if not needed(one.src_uri, self.site.course.about.language)]:
            files.remove(file)
        template = files.get_file_from_path("sitemap.xml")
        if template is not None and template.src_dir != config.docs_dir:
            files.remove(template)
        for page in self.pages.values():
            self._add(page, files)
        for folder in self._growing:
            stem = posixpath.join(folder, f"{shell.STEM}.md")
            files.append(File.generated(config, stem, content="", inclusion=InclusionLevel.NOT_IN_NAV))
        if self._has_own_nav:
            for lesson in self.site.lessons:
                there = files.get_file_from_path(lesson.file.removeprefix("lessons/"))
                if there is not None:
                    there.inclusion = InclusionLevel.NOT_IN_NAV
        for asset in self._assets:
            files.append(WrittenLate(config, asset.uri, asset.draw))
        files.append(WrittenLate(config, addresses.SEARCH_INDEX))
        if config.site_url and not self._is_served:
            text = sitemap(config.site_url, self._addresses(files))
            files.append(File.generated(config, "sitemap.xml", content=text))

    def _add(self, page: Page, files: Files) -> None:
        src_uri = page.uri if page.grows else markdown(page.uri)
        taken = files.get_file_from_path(src_uri) or files.get_file_from_path(markdown(page.uri))
        if taken is not None:
            if page.uri == addresses.HOME:
                return
            raise PluginError(
                f"lessons/{taken.src_uri} has the address of a page that the builder makes. Rename it."
            )
        files.append(
            WrittenLate(self._config, src_uri)
            if page.grows
            else File.generated(self._config, src_uri, content="", inclusion=InclusionLevel.NOT_IN_NAV)
        )

    @cached_property
    def _growing(self) -> Mapping[str, list[Page]]:
        """Folder to its pages that grow with the number of clients."""
        by_folder: dict[str, list[Page]] = defaultdict(list)
        for page in self.pages.values():
            if page.grows:
                by_folder[posixpath.dirname(page.uri)].append(page)
        return by_folder

    def _addresses(self, files: Files) -> list[str]:
        lessons = [file.dest_uri for file in files.documentation_pages() if shell.STEM not in file.src_uri]
        return sorted({*lessons, *self.pages})

    def page_of(self, page: MkDocsPage) -> Page | None:
        """Our page behind one of MkDocs'."""
        return self.pages.get(page.file.dest_uri)

    def describe(self, page: MkDocsPage) -> None:
        """Title, description and source of one of our pages; none of them is searched by the theme."""
        made, is_generated = self.page_of(page), bool(page.file.generated_by)
        source = shell.SOURCE if page.file.name == shell.STEM else made.source if made else None
        if source is not None and is_generated:
            page.edit_url = self._edit_url(source)
        if made is not None:
            page.meta.setdefault("title", made.title)
            page.meta.setdefault("description", made.description)
            if is_generated:
                page.meta["search"] = {"exclude": True}

    def _edit_url(self, source: str) -> str | None:
        """A link to the source where the educator gave its whole address: half a one asks a foreign host."""
        uri = self._config.edit_uri or ""
        absolute = urlsplit(uri).scheme in ("http", "https")
        return urljoin(uri, f"../{source}") if absolute and not self._config.repo_url else None

    def body(self, page: MkDocsPage) -> str | None:
        """The body of one of our pages; None for any other."""
        made = self.page_of(page)
        if made is None:
            return None
        if made.uri == addresses.HOME and not page.file.generated_by:
            made = home(self.site, opening(page.content or ""))
        return made.body

    def surround(self, env: Environment, nav: Navigation, files: Files) -> None:
        """Hands the theme what it asks for, then fills in what is made of the theme's own pages: search, and
        the pages of clients. Here every lesson has its text, and no file is written yet."""
        env.globals["casetrue"] = self._frame
        self._add_search(files)
        for folder, some in self._growing.items():
            file = files.get_file_from_path(posixpath.join(folder, f"{shell.STEM}.md"))
            assert file is not None
            cut = self._shell(env, nav, files, file)
            for page in some:
                self._late(files, page.uri).make = partial(cut.fill, page)

    def _add_search(self, files: Files) -> None:
        lessons = [
            search.lesson(
                self.site.words,
                file.dest_uri,
                Markup(file.page.title or "").striptags(),
                file.page.content or "",
            )
            for file in files.documentation_pages()
            if file.page and not file.generated_by
        ]
        asset = search.index(self.site.words, self.site.course, self.pages.values(), lessons)
        self._late(files, asset.uri).make = asset.draw

    def _late(self, files: Files, uri: str) -> WrittenLate:
        file = files.get_file_from_path(uri)
        assert isinstance(file, WrittenLate)
        return file

    def _shell(self, env: Environment, nav: Navigation, files: Files, file: File) -> shell.Shell:
        """The theme's page of a folder, drawn once and cut at its marks."""
        assert file.page is not None
        files.remove(file)
        page = file.page
        page.title = shell.TITLE
        page.meta["description"] = shell.DESCRIPTION
        page.content = shell.BODY
        context = get_context(nav, files, self._config, page)
        drawn = env.get_template("main.html").render(context)
        whole = self._config.plugins.on_post_page(drawn, page=page, config=self._config)
        try:
            return shell.Shell.cut(str(whole))
        except ValueError as unfit:
            raise PluginError(str(unfit)) from None

    def take_unwritten(self, files: Files) -> Mapping[str, Callable[[], str]]:
        """While serving: takes out all files that can be made when somebody asks for them."""
        late = [file for file in files if isinstance(file, WrittenLate)]
        for file in late:
            files.remove(file)
        return {file.dest_uri: file.make for file in late}
