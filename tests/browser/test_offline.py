"""A learner keeps the course and uses it in flight mode; the copy is renewed, broken off, and removed.

For a site on this machine flight mode is a server that has stopped. The network conditions that WebDriver
BiDi emulates do not do: in both browsers they hold for pages, and the worker reaches the server all the same.
"""

from __future__ import annotations

import contextlib
import functools
import os
import shutil
import threading
from collections.abc import Callable, Iterator
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest

from ..conftest import ANKLE
from .conftest import Desk
from .page import Page
from .practice import build, narrow_faults, pick, tab_to_button

KEEP = "Keep this course on this device"
KEPT = "document.querySelector('case-keep').innerText.includes('Kept on this device')"
SAID = "document.querySelector('case-keep [role=status]').innerText"


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    block_on_close = False


class Host:
    """A host whose site can be replaced, whose answers can be spoilt, and that can be out of reach."""

    def __init__(self, site: Path) -> None:
        self.site = site
        self.spoilt: dict[str, bytes] = {}
        """Path to what is sent in place of the file."""
        self.dropped: set[str] = set()
        """Paths for which the connection is broken off."""
        self.asked: list[str] = []
        self._port = 0
        self._server: _Server | None = None
        self.start()

    def start(self) -> None:
        self._server = _Server(("127.0.0.1", self._port), functools.partial(_Handler, self))
        self._port = self._server.server_port
        threading.Thread(target=self._server.serve_forever, args=(0.05,), daemon=True).start()

    def stop(self) -> None:
        if self._server is not None:
            self._server.shutdown()
            self._server.server_close()
            self._server = None

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self._port}/"


class _Handler(SimpleHTTPRequestHandler):
    """Lets browsers hold what they got for ten minutes without asking again, as many hosts do."""

    def __init__(self, host: Host, *given: Any) -> None:
        self.host = host
        super().__init__(*given, directory=str(host.site))

    def do_GET(self) -> None:
        path = self.path.partition("?")[0].lstrip("/")
        self.host.asked.append(path)
        if path in self.host.dropped:
            self.close_connection = True
            return
        body = self.host.spoilt.get(path)
        if body is None:
            super().do_GET()
            return
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def end_headers(self) -> None:
        self.send_header("Cache-Control", "max-age=600")
        super().end_headers()

    def copyfile(self, *given: Any) -> None:
        with contextlib.suppress(BrokenPipeError, ConnectionResetError):  # who asked has left
            super().copyfile(*given)

    def log_message(self, *_: object) -> None:
        pass


ASK = "quizzes/all-kinds.html?ask=g-plan.crake-07"
"""A question whose key the other build moves: the ankle's mean lies on the old line."""
OLD_KEY, NEW_KEY = "d", "b"
FILES = "quizzes/all-kinds.1.js"
NOTED = """caches.keys().then(([one]) => caches.open(one)).then((copy) => copy.keys())
    .then((all) => all.some((one) => one.url.includes('/.page/')))"""


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The small course, and the same with another line in a table."""
    folder = tmp_path_factory.mktemp("builds")
    changed = Path(shutil.copytree(ANKLE, folder / "course"))
    table = changed / "tables" / "ankle_class.yml"
    text = table.read_text("utf-8")
    table.write_text(text.replace("below: 35", "below: 36").replace("at_least: 35", "at_least: 36"), "utf-8")
    old, new = build(ANKLE, folder / "old"), build(changed, folder / "new")
    for file in new.rglob("*"):
        # The server tells files apart by the second.
        os.utime(file, (file.stat().st_mtime + 60,) * 2)
    return old, new


@pytest.fixture
def host(sites: tuple[Path, Path]) -> Iterator[Host]:
    made = Host(sites[0])
    yield made
    made.stop()


def keep(page: Page, host: Host) -> None:
    page.open(host.address)
    page.wait_for("document.querySelector('case-keep button')")
    page.click("case-keep button", text=KEEP)
    page.wait_for(KEPT)


def answer(page: Page, host: Host, key: str) -> str:
    """What is said to this answer to the one question."""
    page.open(host.address + ASK)
    page.wait_for("document.querySelector('case-quiz input[type=radio]')")
    pick(page, key)
    tab_to_button(page, "Check my answer")
    page.press("Enter")
    return page.text("case-quiz .feedback")


def data(page: Page) -> bool:
    """Whether the page that is open gets a file of the quiz now."""
    ask = (
        "(file) => fetch(new URL(file, location.origin), {cache: 'no-store'}).then((a) => a.ok, () => false)"
    )
    return page.call(ask, "/" + FILES)


def test_a_kept_course_is_used_in_flight_mode(page: Page, host: Host) -> None:
    page.open(host.address)
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then((all) => all.length)") == 0
    keep(page, host)
    assert page.text("case-keep [role=status]") == "All of it is here."
    assert page.trouble == []
    host.asked.clear()
    host.stop()
    assert page.evaluate("fetch('offline.json', {cache: 'no-store'}).then(() => false, () => true)")
    for name, words in [
        ("", "Welcome"),
        ("index.html", "Welcome"),
        ("clients/tern-03.html", "Tern"),
        ("quizzes/all-kinds.html?draw=42", "Every kind of question"),
        ("about.html?once#limits", "About this course"),
        ("nothing/here.html", "No such page"),
    ]:
        page.open(host.address + name)
        assert words in page.text("h1"), name
    page.open(host.address + "search.html?q=Tern")
    page.wait_for("document.querySelector('case-search a')")
    assert page.evaluate("getComputedStyle(document.querySelector('main')).fontFamily").startswith("Seravek")
    page.open(host.address + "clients/tern-03.html")
    page.wait_for("document.querySelector('case-walk button')")
    assert answer(page, host, OLD_KEY).startswith("Right")
    page.open(host.address + "record.html")
    page.wait_for("document.querySelector('case-record').innerText.includes('1 of 1 right')")
    assert host.asked == []


def test_a_changed_build_is_seen_at_once_and_never_mixed_with_the_copy(
    page: Page, host: Host, sites: tuple[Path, Path]
) -> None:
    keep(page, host)
    page.open(host.address + ASK)
    page.wait_for("document.querySelector('case-quiz input[type=radio]')")
    assert data(page)
    host.stop()
    page.open(host.address + ASK)  # from the copy, though the browser itself still holds some of it
    host.site = sites[1]
    host.start()
    host.asked.clear()
    assert data(page)
    assert host.asked == [], "a page of the copy gets its files from the copy"
    assert answer(page, host, NEW_KEY).startswith("Right")
    host.dropped = {FILES}
    page.open(host.address)
    page.wait_for("document.querySelector('case-keep').innerText.includes('has changed since')")
    assert not data(page), "a page of one build got data of another"
    host.dropped.clear()
    page.click("case-keep button", text="Renew the copy")
    page.wait_for(f"{SAID} === 'All of it is here.'")
    assert page.evaluate("caches.keys().then((all) => all.length)") == 1
    host.stop()
    assert answer(page, host, NEW_KEY).startswith("Right")


def test_the_files_of_a_renewal_that_are_as_before_are_not_fetched_again(
    page: Page, host: Host, sites: tuple[Path, Path]
) -> None:
    keep(page, host)
    host.site = sites[1]
    page.open(host.address)
    page.wait_for("document.querySelector('case-keep').innerText.includes('has changed since')")
    host.asked.clear()
    page.click("case-keep button", text="Renew the copy")
    page.wait_for(f"{SAID} === 'All of it is here.'")
    assert "tables/ankle_class.html" in host.asked
    assert not {"assets/casetrue.css", "search.html"} & set(host.asked)


def test_a_page_of_the_same_build_goes_on_where_the_network_ends(page: Page, host: Host) -> None:
    keep(page, host)
    page.open(host.address + "quizzes/all-kinds.html")
    page.wait_for(NOTED)
    host.stop()
    assert data(page)


def test_what_was_broken_off_is_told_and_goes_on(page: Page, host: Host) -> None:
    host.dropped = {"sources.html"}
    page.open(host.address)
    page.wait_for("document.querySelector('case-keep button')")
    page.click("case-keep button", text=KEEP)
    page.wait_for(f"{SAID}.startsWith('The network broke off.')")
    host.stop()
    with pytest.raises(Exception, match=r"net::|NS_ERROR|neterror|unknown error"):
        page.open(host.address + "clients/tern-03.html")  # half a copy answers nothing
    host.dropped.clear()
    host.start()
    page.open(host.address)
    page.wait_for("document.querySelector('case-keep').innerText.includes('Not all of this course')")
    host.asked.clear()
    page.click("case-keep button", text="Go on")
    page.wait_for(KEPT)
    assert "sources.html" in host.asked
    assert "assets/casetrue.css" not in host.asked


def test_another_page_in_place_of_a_file_is_not_kept(page: Page, host: Host) -> None:
    """As a network does that wants to be paid first."""
    host.spoilt = {"clients/tern-03.html": b"<!doctype html><title>Pay here</title>"}
    page.open(host.address)
    page.wait_for("document.querySelector('case-keep button')")
    page.click("case-keep button", text=KEEP)
    page.wait_for(f"{SAID}.startsWith('clients/tern-03.html did not arrive as it was written.')")
    page.click("case-keep button", text="Remove the copy")
    page.wait_for(f"{SAID} === 'The copy is removed.'")
    assert page.evaluate("caches.keys()") == []


def test_a_removed_copy_leaves_nothing_but_the_answers(page: Page, host: Host) -> None:
    keep(page, host)
    answer(page, host, OLD_KEY)
    answers = page.evaluate("localStorage.length")
    page.open(host.address)
    page.wait_for(KEPT)
    page.click("case-keep button", text="Remove the copy")
    page.wait_for(f"{SAID} === 'The copy is removed.'")
    assert page.evaluate("caches.keys()") == []
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then((all) => all.length)") == 0
    assert page.evaluate("localStorage.length") == answers
    assert page.sees("case-keep button", KEEP)


def test_nothing_is_offered_from_disk_or_without_script(browser: Desk, host: Host) -> None:
    page = browser.page()
    page.open(host.site / "index.html")
    page.wait_for(f"{SAID} === 'Opened from disk, this course needs no network.'")
    assert page.count("case-keep button") == 0
    assert page.trouble == []
    bare = browser.page(script=False)
    bare.open(host.address)
    assert "device" not in bare.text("main")


def test_keeping_fits_a_phone_and_a_keyboard(
    browser: Desk, host: Host, axe: Callable[[Page], list[str]]
) -> None:
    page = browser.page(width=360, height=640, scheme="dark")
    page.open(host.address)
    tab_to_button(page, KEEP)
    assert (narrow_faults(page), axe(page)) == ([], [])
    host.dropped = {"sources.html"}
    page.press("Enter")
    page.wait_for(f"{SAID}.startsWith('The network broke off.')")
    page.wait_for("document.activeElement.matches('case-keep [role=status]')")
    assert (narrow_faults(page), axe(page)) == ([], [])
    host.dropped.clear()
    tab_to_button(page, "Go on")
    page.press("Enter")
    page.wait_for(KEPT)
    assert (narrow_faults(page), axe(page)) == ([], [])
