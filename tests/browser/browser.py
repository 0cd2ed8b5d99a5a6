"""Starts Debian's Chromium (through chromedriver) and firefox-esr (directly), headless; both speak BiDi."""

from __future__ import annotations

import contextlib
import json
import os
import re
import shutil
import signal
import subprocess
import tempfile
import time
import urllib.request
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from .bidi import BidiError, Connection
from .page import Page

Name = Literal["chromium", "firefox"]
NAMES: tuple[Name, ...] = ("chromium", "firefox")
EVENTS = (
    "browsingContext.userPromptOpened",
    "log.entryAdded",
    "network.beforeRequestSent",
    "network.fetchError",
    "network.responseCompleted",
    "script.message",
)
START_SECONDS = 90

_WATCH_POLICY = """(tell) => addEventListener('securitypolicyviolation',
    e => tell(`${e.effectiveDirective}: ${e.blockedURI || e.sample}`))"""

# The two features are pages of the address bar, made for every window: half of what a new store costs.
_CHROMIUM = (
    "--headless=new",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-dev-shm-usage",
    "--disable-features=WebUIOmniboxAimPopup,WebUIOmniboxPopup",
    "--disable-gpu",
    "--disable-quic",
    "--disable-sync",
    "--no-first-run",
)

_FIREFOX: Mapping[str, Any] = {
    "app.update.disabledForTesting": True,
    "browser.chrome.site_icons": False,
    "browser.download.alwaysOpenPanel": False,
    "browser.download.folderList": 2,
    "browser.download.useDownloadDir": True,
    "browser.shell.checkDefaultBrowser": False,
    "browser.startup.homepage": "about:blank",
    "browser.startup.page": 0,
    "datareporting.policy.dataSubmissionEnabled": False,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "services.settings.server": "data:,",
    "toolkit.telemetry.unified": False,
}


@dataclass(frozen=True, slots=True)
class View:
    """What the learner's device asks of a page."""

    scheme: Literal["light", "dark"] = "light"
    motion: bool = True
    """False: the learner asked for reduced motion."""
    forced_colors: bool = False
    """In Firefox `scheme` then has no say: it follows the forced palette."""
    script: bool = True
    print: bool = False
    """Styles for print. Chromium alone; Firefox shows them by `Page.pdf`."""


class Browser:
    """One running browser. Use as a context manager, or call `close`."""

    def __init__(self, name: Name, view: View | None = None) -> None:
        """`view` fixes what Firefox can only be told at its start; Chromium is told page by page.

        Raises FileNotFoundError where the browser is not installed, TimeoutError where it does not start.
        """
        self.name = name
        self._view = view or View()
        self._pages: dict[str, Page] = {}
        self._closing = contextlib.ExitStack()
        self._folder = Path(
            self._closing.enter_context(tempfile.TemporaryDirectory(prefix="casetrue-browser-"))
        )
        self.in_front = ""
        """The page that was opened or used last."""
        self.downloads = self._folder / "downloads"
        """The folder where files land that pages let the learner save; emptied by `close_pages`."""
        self.downloads.mkdir()
        try:
            url = self._start_chromium() if name == "chromium" else self._start_firefox()
            self._connection = Connection(url, self._on_event)
            self._closing.callback(self._connection.close)
            if name == "firefox":
                prompts = {"unhandledPromptBehavior": {"default": "ignore"}}
                self.send("session.new", capabilities={"alwaysMatch": prompts})
            else:
                allowed = {"type": "allowed", "destinationFolder": str(self.downloads)}
                self.send("browser.setDownloadBehavior", downloadBehavior=allowed)
            self._closing.callback(self._say_goodbye)
            self.send("session.subscribe", events=list(EVENTS))
            channel = {"type": "channel", "value": {"channel": "violation"}}
            self.send("script.addPreloadScript", functionDeclaration=_WATCH_POLICY, arguments=[channel])
        except BaseException:
            self.close()
            raise

    def page(
        self,
        *,
        width: int = 1280,
        height: int = 800,
        view: View | None = None,
        beside: Page | None = None,
    ) -> Page:
        """A new tab with an empty store of its own, or in the store of the page `beside` it."""
        store = beside.store if beside else self.send("browser.createUserContext")["userContext"]
        context = self.send("browsingContext.create", type="tab", userContext=store)["context"]
        page = self._pages[context] = Page(self, store, context)
        self.in_front = context
        page.size(width, height)
        if self.name == "chromium":
            self._emulate(context, view or View())
        return page

    def close_pages(self) -> None:
        for page in self._pages.values():
            with contextlib.suppress(BidiError):
                page.close()
            with contextlib.suppress(BidiError):
                self.send("browser.removeUserContext", userContext=page.store)
        self._pages.clear()
        for file in self.downloads.iterdir():
            file.unlink()

    def send(self, method: str, /, **params: Any) -> dict[str, Any]:
        return self._connection.send(method, **params)

    def close(self) -> None:
        self._closing.close()

    def __enter__(self) -> Browser:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def _on_event(self, method: str, params: Mapping[str, Any]) -> None:
        context = params.get("context") or params.get("source", {}).get("context")
        if method == "browsingContext.userPromptOpened":
            self._connection.tell("browsingContext.handleUserPrompt", context=context, accept=True)
        if context in self._pages:
            self._pages[context].record(method, params)
        elif context:  # a frame, or a tab that a page opened
            for page in self._pages.values():
                page.record(method, params)

    def _say_goodbye(self) -> None:
        with contextlib.suppress(Exception):
            self.send("browser.close")

    def _start_chromium(self) -> str:
        flags = [*_CHROMIUM, f"--user-data-dir={self._folder / 'profile'}"]
        if os.geteuid() == 0:
            flags.append("--no-sandbox")
        driver = self._start(["chromedriver", "--port=0"])
        port = self._find_in_log(r"started successfully on port (\d+)")
        options = {"args": flags, "binary": _installed("chromium")}
        asked = {"webSocketUrl": True, "unhandledPromptBehavior": "ignore", "goog:chromeOptions": options}
        body = json.dumps({"capabilities": {"alwaysMatch": asked}}).encode()
        request = urllib.request.Request(
            f"http://127.0.0.1:{port}/session", body, {"Content-Type": "application/json"}
        )
        with urllib.request.urlopen(request, timeout=START_SECONDS) as answer:
            session = json.load(answer)["value"]
        assert driver.poll() is None
        return session["capabilities"]["webSocketUrl"]

    def _emulate(self, context: str, view: View) -> None:
        """Chromium's own protocol for media features; BiDi has no word for them yet."""
        features = {
            "prefers-color-scheme": view.scheme,
            "prefers-reduced-motion": "no-preference" if view.motion else "reduce",
            "forced-colors": "active" if view.forced_colors else "none",
        }
        session = self.send("goog:cdp.getSession", context=context)["session"]
        self.send(
            "goog:cdp.sendCommand",
            session=session,
            method="Emulation.setEmulatedMedia",
            params={
                "media": "print" if view.print else "",
                "features": [{"name": name, "value": value} for name, value in features.items()],
            },
        )
        if not view.script:
            self.send("emulation.setScriptingEnabled", enabled=False, contexts=[context])

    def _start_firefox(self) -> str:
        profile = self._folder / "profile"
        profile.mkdir()
        view = self._view
        preferences = {
            **_FIREFOX,
            "browser.download.dir": str(self.downloads),
            "layout.css.prefers-color-scheme.content-override": 0 if view.scheme == "dark" else 1,
            "ui.prefersReducedMotion": 0 if view.motion else 1,
            "browser.display.document_color_use": 2 if view.forced_colors else 1,
            "javascript.enabled": view.script,
        }
        lines = [
            f"user_pref({json.dumps(key)}, {json.dumps(value)});\n" for key, value in preferences.items()
        ]
        (profile / "user.js").write_text("".join(lines), encoding="utf-8")
        self._start(
            [
                "firefox-esr",
                "--headless",
                "--no-remote",
                "--profile",
                str(profile),
                "--remote-debugging-port",
                "0",
            ]
        )
        return self._find_in_log(r"WebDriver BiDi listening on (\S+)") + "/session"

    def _start(self, command: list[str]) -> subprocess.Popen[bytes]:
        """Starts the process in a group of its own, so that all of it ends with us."""
        log = self._closing.enter_context((self._folder / "log").open("wb"))
        process = subprocess.Popen(
            [_installed(command[0]), *command[1:]],
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=log,
            start_new_session=True,
            env={**os.environ, "HOME": str(self._folder), "MOZ_CRASHREPORTER_DISABLE": "1"},
        )
        self._closing.callback(_end, process)
        return process

    def _find_in_log(self, pattern: str) -> str:
        log = self._folder / "log"
        end = time.monotonic() + START_SECONDS
        while time.monotonic() < end:
            if found := re.search(pattern, log.read_text("utf-8", errors="replace")):
                return found[1]
            time.sleep(0.05)
        raise TimeoutError(f"{self.name} did not start: {log.read_text('utf-8', errors='replace')[-2000:]}")


def _installed(program: str) -> str:
    path = shutil.which(program)
    if path is None:
        raise FileNotFoundError(f"{program} is not installed; `bash tests/run` installs it")
    return path


def _end(process: subprocess.Popen[bytes]) -> None:
    with contextlib.suppress(subprocess.TimeoutExpired):
        process.wait(timeout=0.5)
    with contextlib.suppress(ProcessLookupError):
        os.killpg(process.pid, signal.SIGKILL)
    process.wait()
