"""One tab of a browser, as a learner and as a judge see it.

    def test_answer(page, serve):                      # runs in Chromium and in Firefox
        page.open(serve(folder) + "clients/tern.html") # or page.open(folder / "clients" / "tern.html"): file://
        page.tab_to("input[type=radio]")               # Tab until it has the focus, or fail
        page.press("Space", "ArrowDown", "Shift+Tab")  # real keys, to whatever has the focus
        page.click("button", text="Check my answer")  # a real mouse; fails on what is hidden or covered
        page.wait_for("document.querySelector('[role=status]').textContent")
        assert "112°" in page.text("main")
        assert page.evaluate("localStorage.length") == 1
        assert page.too_wide == []                     # nothing makes the page scroll sideways
        assert page.trouble == []                      # errors, CSP violations, failed and foreign requests

Other views of the same site come from the `browser` fixture, each with a store (localStorage) of its own:

    page = browser.page(width=360, height=640, scheme="dark", motion=False, forced_colors=True, script=False)

`tests/browser/conftest.py` says what each fixture gives, `test_harness.py` shows every ability at work.
"""

from __future__ import annotations

import base64
import json
import time
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar
from urllib.parse import urlsplit

from .bidi import BidiError, plain, remote

if TYPE_CHECKING:
    from .browser import Browser

KEYS = {
    "Alt": "\ue00a",
    "ArrowDown": "\ue015",
    "ArrowLeft": "\ue012",
    "ArrowRight": "\ue014",
    "ArrowUp": "\ue013",
    "Backspace": "\ue003",
    "Control": "\ue009",
    "Delete": "\ue017",
    "End": "\ue010",
    "Enter": "\ue007",
    "Escape": "\ue00c",
    "Home": "\ue011",
    "Meta": "\ue03d",
    "PageDown": "\ue00f",
    "PageUp": "\ue00e",
    "Shift": "\ue008",
    "Space": " ",
    "Tab": "\ue004",
}
"""Names of keys (UI Events KeyboardEvent key values) to the code points of the WebDriver standard, 17.4.2."""

PATIENCE = 60.0
"""Seconds that `wait_for` and `until` wait; long, since the tests share a busy machine."""

Found = TypeVar("Found")


BROKEN_OFF = ("NS_BINDING_ABORTED", "net::ERR_ABORTED")


def until(look: Callable[[], Found]) -> Found:
    """The first truthy value of `look`; when patience ends, its last one."""
    end = time.monotonic() + PATIENCE
    while not (found := look()) and time.monotonic() < end:
        time.sleep(0.05)
    return found


_FIND = """(selector, text) => [...document.querySelectorAll(selector)].filter(
    e => text === null || e.textContent.replace(/\\s+/g, ' ').trim().includes(text)).slice(0, 1)"""

_IS_SEEN = "e => e.checkVisibility({visibilityProperty: true, contentVisibilityAuto: true})"

_HAS_FOCUS = """(selector, text) => document.activeElement.matches(selector) &&
    (text === null || document.activeElement.textContent.replace(/\\s+/g, ' ').trim().includes(text))"""

_TOO_WIDE = """(() => {
    const root = document.documentElement, width = root.clientWidth;
    if (root.scrollWidth <= width) return [];
    return [...document.body.querySelectorAll('*')]
        .filter(e => e.getBoundingClientRect().right > width + 0.5)
        .map(e => e.outerHTML.match(/^<[^>]*>/)[0]);
})()"""

_AIM = """(e) => {
    e.scrollIntoView({block: 'center', inline: 'center', behavior: 'instant'});
    const r = e.getBoundingClientRect(), x = r.x + r.width / 2, y = r.y + r.height / 2;
    if (!r.width || !r.height) return {fault: 'has no size'};
    const hit = document.elementFromPoint(x, y);
    const label = hit && hit.closest('label');
    if (hit && (e.contains(hit) || (label && label.control === e)))
        return {x: Math.round(x), y: Math.round(y)};
    return {fault: 'is covered by ' + (hit ? hit.outerHTML.slice(0, 120) : 'nothing: it is off the screen')};
}"""


class Page:
    """Made by `Browser.page`."""

    def __init__(self, browser: Browser, store: str, context: str) -> None:
        self._browser = browser
        self._context = context
        self._requests: list[str] = []
        self._errors: list[str] = []
        self._violations: list[str] = []
        self._failures: list[str] = []
        self._dialogs: list[str] = []
        self._before = ""
        self.store = store
        """The user context: pages of one store share localStorage, see `Browser.page(beside=...)`."""
        self.downloads = browser.downloads
        """The folder where files land that the browser's pages let the learner save."""

    # going places

    def open(self, where: str | Path) -> None:
        """Loads an address, or a file from disk, and waits for its load event."""
        url = where.resolve().as_uri() if isinstance(where, Path) else where
        self._send("browsingContext.navigate", url=url, wait="complete")

    def before(self, function: str) -> None:
        """Runs a function, given as its source text, in every document from now on, before the page's own
        scripts; it takes the place of the one before it."""
        if self._before:
            self._browser.send("script.removePreloadScript", script=self._before)
        added = self._browser.send(
            "script.addPreloadScript", functionDeclaration=function, contexts=[self._context]
        )
        self._before = added["script"]

    def reload(self) -> None:
        self._send("browsingContext.reload", wait="complete")

    def back(self) -> None:
        self._send("browsingContext.traverseHistory", delta=-1)

    @property
    def url(self) -> str:
        return self.evaluate("location.href")

    # reading

    def evaluate(self, expression: str) -> Any:
        """The value of an expression (promises awaited). Raises AssertionError where it throws."""
        answer = self._send_script("script.evaluate", expression=expression)
        return plain(answer)

    def call(self, function: str, *arguments: Any) -> Any:
        """The value of a function, given as its source text, for these arguments."""
        answer = self._send_script(
            "script.callFunction", functionDeclaration=function, arguments=[remote(a) for a in arguments]
        )
        return plain(answer)

    def wait_for(self, condition: str, seconds: float = PATIENCE) -> Any:
        """The first truthy value of the expression; survives a navigation in between."""
        end = time.monotonic() + seconds
        last: object = None
        while time.monotonic() < end:
            try:
                last = self.evaluate(condition)
            except (AssertionError, BidiError) as fault:
                last = fault
            else:
                if last:
                    return last
            time.sleep(0.05)
        raise AssertionError(f"waited {seconds} s in vain for {condition!r}; last: {last!r}; at {self.url}")

    def text(self, selector: str = "body") -> str:
        """What is seen of the first such element: innerText, without what is hidden."""
        return self._read("(e) => e.innerText", selector, None)

    def count(self, selector: str) -> int:
        return self.call("(s) => document.querySelectorAll(s).length", selector)

    def sees(self, selector: str, text: str | None = None) -> bool:
        """Is there such an element that is laid out and not hidden?"""
        return self._found(_IS_SEEN, selector, text) == [True]

    @property
    def focus(self) -> str:
        """The element that has the focus, as the start of its tag: `<button class=...>`."""
        return self.evaluate("document.activeElement.outerHTML.match(/^<[^>]*>/)[0]")

    @property
    def too_wide(self) -> list[str]:
        """The tags of the elements that make the page scroll sideways; empty where it fits."""
        return self.evaluate(_TOO_WIDE)

    # acting

    def press(self, *keys: str) -> None:
        """Presses keys one after the other: "Tab", "Space", "ArrowDown", "a", "Shift+Tab", "Control+End"."""
        for chord in keys:
            names = [chord] if chord == "+" else chord.split("+")
            codes = [KEYS.get(name, name) for name in names]
            down = [{"type": "keyDown", "value": code} for code in codes]
            up = [{"type": "keyUp", "value": code} for code in reversed(codes)]
            self._act({"type": "key", "id": "keys", "actions": down + up})

    def tab_to(self, selector: str, text: str | None = None, most: int = 80) -> None:
        """Presses Tab until such an element (whose text contains `text`) has the focus."""
        for _ in range(most):
            self.press("Tab")
            if self.call(_HAS_FOCUS, selector, text):
                return
        raise AssertionError(f"Tab does not lead to {selector!r} {text or ''}; the focus is on {self.focus}")

    def type(self, text: str) -> None:
        """Types text to whatever has the focus."""
        actions = [{"type": kind, "value": sign} for sign in text for kind in ("keyDown", "keyUp")]
        self._act({"type": "key", "id": "keys", "actions": actions})

    def click(self, selector: str, text: str | None = None) -> None:
        """Clicks the middle of the first such element (whose text contains `text`) with a mouse."""
        self._point("mouse", selector, text)

    def tap(self, selector: str, text: str | None = None) -> None:
        """As `click`, with a finger; waits for the click that the browser makes of it."""
        self.evaluate(
            """window.tapped = false;
            addEventListener('click', () => { window.tapped = true; }, {capture: true, once: true})"""
        )
        self._point("touch", selector, text)
        self.wait_for("window.tapped")

    def choose_file(self, selector: str, *files: Path) -> None:
        """Puts files into an `<input type=file>`."""
        self._send(
            "input.setFiles",
            element=self._read("(e) => e", selector, None),
            files=[str(f.resolve()) for f in files],
        )

    # the room around the page

    def size(self, width: int, height: int = 800) -> None:
        self._send("browsingContext.setViewport", viewport={"width": width, "height": height})

    def screenshot(self, file: Path, whole: bool = True) -> None:
        """Writes a PNG of the whole page, or of what fits the window."""
        origin = "document" if whole else "viewport"
        picture = self._send("browsingContext.captureScreenshot", origin=origin)
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(base64.b64decode(picture["data"]))

    def pdf(self, file: Path) -> None:
        """Writes the page as it prints (A4)."""
        sheet = self._send("browsingContext.print", page={"width": 21.0, "height": 29.7}, background=False)
        file.write_bytes(base64.b64decode(sheet["data"]))

    # what went on

    @property
    def requests(self) -> list[str]:
        """Every address asked for since the page was made, data: and blob: left out."""
        self._drain()
        return list(self._requests)

    @property
    def foreign(self) -> list[str]:
        """The requests that left this machine."""
        return [
            url for url in self.requests if urlsplit(url).hostname not in (None, "", "127.0.0.1", "localhost")
        ]

    @property
    def failures(self) -> list[str]:
        """Requests that failed or were answered with 400 and above; on file:// browsers do not tell."""
        self._drain()
        return list(self._failures)

    @property
    def errors(self) -> list[str]:
        """Errors on the console and exceptions that nobody caught."""
        self._drain()
        return list(self._errors)

    @property
    def violations(self) -> list[str]:
        """Breaches of the page's content security policy, as `directive: what`."""
        self._drain()
        return list(self._violations)

    @property
    def dialogs(self) -> list[str]:
        """What alert, confirm and prompt said; each was accepted at once."""
        self._drain()
        return list(self._dialogs)

    @property
    def trouble(self) -> list[str]:
        """All that should be empty on a sound page."""
        kinds = {
            "error": self.errors,
            "violation": self.violations,
            "failed": self.failures,
            "foreign": self.foreign,
        }
        return [f"{kind}: {entry}" for kind, entries in kinds.items() for entry in entries]

    def close(self) -> None:
        self._send("browsingContext.close")

    # inner

    def record(self, method: str, params: Mapping[str, Any]) -> None:
        """Takes an event of this page, given by the browser."""
        if method == "network.beforeRequestSent":
            url = params["request"]["url"]
            if urlsplit(url).scheme not in ("data", "blob", "about"):
                self._requests.append(url)
        elif method == "network.responseCompleted":
            if params["response"]["status"] >= 400:
                self._failures.append(f"{params['response']['status']} {params['response']['url']}")
        # Whoever leaves a page breaks off what it still fetches.
        elif method == "network.fetchError" and params["errorText"] not in BROKEN_OFF:
            self._failures.append(f"{params['errorText']} {params['request']['url']}")
        elif method == "log.entryAdded":
            if params["level"] == "error":
                self._errors.append(params["text"] or json.dumps(params.get("args", "")))
        elif method == "browsingContext.userPromptOpened":
            self._dialogs.append(params["message"])
        elif method == "script.message" and params["channel"] == "violation":
            self._violations.append(plain(params["data"]))

    def _drain(self) -> None:
        """One round trip: every event sent before it has arrived after it."""
        self.evaluate("0")

    def _send(self, method: str, /, **params: Any) -> dict[str, Any]:
        return self._browser.send(method, context=self._context, **params)

    def _send_script(self, method: str, /, **params: Any) -> Mapping[str, Any]:
        answer = self._browser.send(
            method,
            target={"context": self._context},
            awaitPromise=True,
            userActivation=False,
            serializationOptions={"maxDomDepth": 0},
            **params,
        )
        if answer["type"] == "exception":
            raise AssertionError(answer["exceptionDetails"]["text"])
        return answer["result"]

    def _found(self, read: str, selector: str, text: str | None) -> list[Any]:
        """What a function reads off the first such element, as the one entry; none where there is none."""
        return self.call(f"(...what) => ({_FIND})(...what).map({read})", selector, text)

    def _read(self, read: str, selector: str, text: str | None) -> Any:
        found = self._found(read, selector, text)
        if not found:
            raise AssertionError(f"nothing matches {selector!r}" + (f" with text {text!r}" if text else ""))
        return found[0]

    def _act(self, source: Mapping[str, Any]) -> None:
        # A browser delivers input to a page in the background late, or a second at a time.
        if self._browser.in_front != self._context:
            self._send("browsingContext.activate")
            self._browser.in_front = self._context
        self._send("input.performActions", actions=[source])

    def _point(self, kind: str, selector: str, text: str | None) -> None:
        aim = self._read(_AIM, selector, text)
        if "fault" in aim:
            raise AssertionError(f"{selector!r} cannot be pressed: it {aim['fault']}")
        self._act(
            {
                "type": "pointer",
                "id": kind,
                "parameters": {"pointerType": kind},
                "actions": [
                    {"type": "pointerMove", "x": aim["x"], "y": aim["y"]},
                    {"type": "pointerDown", "button": 0},
                    {"type": "pointerUp", "button": 0},
                ],
            }
        )
