"""Fixtures of the browser tests. Whatever uses `browser` or `page` runs twice, in Chromium and in Firefox.

- `page`: a tab at 1280 x 800, light, with an empty store; see `page.py` for what it can do.
- `browser`: `browser.page(width=360, scheme="dark", script=False, ...)` for other views, `beside=page` for a
  second tab on the same store. All pages are closed after the test.
- `site`, `whole`: the small course as a built site, and one that has every kind of page.
- `serve`: `serve(folder)` gives the address (ends with `/`) of a server of this folder on this machine.
- `axe`: `axe(page)` gives the WCAG 2.2 A and AA violations, one line each, that axe-core finds on the page.
  On a dark page it looks at colours alone, since nothing else differs from the light one.
"""

from __future__ import annotations

import contextlib
import functools
import threading
from collections.abc import Callable, Iterator, Mapping
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, Literal

import pytest

from ..conftest import ANKLE
from .browser import NAMES, Browser, Name, View
from .page import Page
from .practice import build
from .states import whole_site

AXE = Path(__file__).parents[2] / "node_modules" / "axe-core" / "axe.min.js"
AXE_RUN = """async (tags) => {
    const dark = matchMedia('(prefers-color-scheme: dark)').matches;
    const runOnly = dark ? ['color-contrast', 'link-in-text-block'] : tags;
    const {violations} = await axe.run(document, {runOnly, resultTypes: ['violations']});
    return violations.flatMap(v => v.nodes.map(n => `${v.id}: ${n.target.join(' ')}: ${n.failureSummary}`));
}"""
AXE_TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


MOST_RUNNING = 3
"""Starting a browser takes seconds, keeping it takes some hundred megabytes."""


class Desk:
    """One browser as the tests see it: any view, whatever has to be started for it."""

    def __init__(self, name: Name) -> None:
        self.name = name
        self._running: dict[View, Browser] = {}
        """The one used last at the end."""

    def page(
        self,
        *,
        width: int = 1280,
        height: int = 800,
        scheme: Literal["light", "dark"] = "light",
        motion: bool = True,
        forced_colors: bool = False,
        script: bool = True,
        print: bool = False,
        beside: Page | None = None,
    ) -> Page:
        view = View(scheme, motion, forced_colors, script, print)
        if print and self.name == "firefox":
            raise ValueError("Firefox has no view for print; use page.pdf(file)")
        start = view if self.name == "firefox" else View()
        running = self._running.pop(start, None) or Browser(self.name, start)
        self._running[start] = running
        return running.page(width=width, height=height, view=view, beside=beside)

    def tidy(self) -> None:
        """Closes every page, and all browsers but those used last."""
        while len(self._running) > MOST_RUNNING:
            self._running.pop(next(iter(self._running))).close()
        for browser in self._running.values():
            browser.close_pages()

    def close(self) -> None:
        for browser in self._running.values():
            browser.close()


@pytest.fixture(scope="session")
def desks() -> Iterator[Mapping[Name, Desk]]:
    desks = {name: Desk(name) for name in NAMES}
    yield desks
    for desk in desks.values():
        desk.close()


@pytest.fixture(params=NAMES)
def browser(request: pytest.FixtureRequest, desks: Mapping[Name, Desk]) -> Iterator[Desk]:
    """Not of the session, or pytest would run all of Chromium first and make every site twice."""
    desk = desks[request.param]
    yield desk
    desk.tidy()


@pytest.fixture
def page(browser: Desk) -> Page:
    return browser.page()


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small course, built."""
    return build(ANKLE, tmp_path_factory.mktemp("small") / "site")


@pytest.fixture(scope="session")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site with every kind of page."""
    return whole_site(tmp_path_factory.mktemp("whole"))


class _Handler(SimpleHTTPRequestHandler):
    def log_message(self, *_: Any) -> None:
        pass


@pytest.fixture(scope="session")
def serve() -> Iterator[Callable[[Path], str]]:
    with contextlib.ExitStack() as stack:

        @functools.cache
        def address(folder: Path) -> str:
            if not folder.is_dir():
                raise NotADirectoryError(folder)
            server = ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Handler, directory=str(folder)))
            stack.callback(server.server_close)
            stack.callback(server.shutdown)
            threading.Thread(target=server.serve_forever, daemon=True).start()
            return f"http://127.0.0.1:{server.server_port}/"

        yield address


@pytest.fixture(scope="session")
def axe() -> Callable[[Page], list[str]]:
    source = AXE.read_text("utf-8")

    def violations(page: Page) -> list[str]:
        if not page.evaluate("'axe' in window"):
            page.evaluate(source + ";0")
        return page.call(AXE_RUN, AXE_TAGS)

    return violations
