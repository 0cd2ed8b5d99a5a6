"""Fixtures of the browser tests. Whatever uses `browser` or `page` runs twice, in Chromium and in Firefox.

- `page`: a tab at 1280 x 800, light, with an empty store; see `page.py` for what it can do.
- `browser`: `browser.page(width=360, scheme="dark", script=False, ...)` for other views, `beside=page` for a
  second tab on the same store. All pages are closed after the test.
- `serve`: `serve(folder)` gives the address (ends with `/`) of a server of this folder on this machine.
- `axe`: `axe(page)` gives the WCAG 2.2 A and AA violations, one line each, that axe-core finds on the page.
"""

from __future__ import annotations

import contextlib
import functools
import threading
from collections.abc import Callable, Iterator
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, Literal

import pytest

from .browser import NAMES, Browser, Name, View
from .page import Page

AXE = Path(__file__).parents[2] / "node_modules" / "axe-core" / "axe.min.js"
AXE_RUN = """async (tags) => {
    const {violations} = await axe.run(document, {runOnly: tags, resultTypes: ['violations']});
    return violations.flatMap(v => v.nodes.map(n => `${v.id}: ${n.target.join(' ')}: ${n.failureSummary}`));
}"""
AXE_TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


class Desk:
    """One browser as the tests see it: any view, whatever has to be started for it."""

    def __init__(self, name: Name) -> None:
        self.name = name
        self._running: dict[View, Browser] = {}

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
        if start not in self._running:
            self._running[start] = Browser(self.name, start)
        return self._running[start].page(width=width, height=height, view=view, beside=beside)

    def close_pages(self) -> None:
        for browser in self._running.values():
            browser.close_pages()

    def close(self) -> None:
        for browser in self._running.values():
            browser.close()


@pytest.fixture(scope="session", params=NAMES)
def desk(request: pytest.FixtureRequest) -> Iterator[Desk]:
    desk = Desk(request.param)
    yield desk
    desk.close()


@pytest.fixture
def browser(desk: Desk) -> Iterator[Desk]:
    yield desk
    desk.close_pages()


@pytest.fixture
def page(browser: Desk) -> Page:
    return browser.page()


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

    def violations(page: Page, *tags: str) -> list[str]:
        page.evaluate(source + ";0")
        return page.call(AXE_RUN, list(tags) or AXE_TAGS)

    return violations
