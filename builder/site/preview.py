"""While serving: a build that fails leaves the site as it was, and every page says what is wrong.

Pages of which there are as many as clients are made when somebody asks for one: no build waits for them. The
site is served to this machine alone.
"""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any

from builder.problems.printable import one_line
from builder.problems.trouble import sentence

if TYPE_CHECKING:
    from mkdocs.livereload import LiveReloadServer

Builder = Callable[[], None]
App = Callable[[dict[str, Any], Callable[..., Any]], Iterable[bytes]]

LOOKING = 0.1
"""Seconds from one look for changed files to the next."""

_BODY = re.compile(rb"<body\b[^>]*>")
_THIS_MACHINE = re.compile(r"(?:localhost|127\.0\.0\.1|\[::1\])(?::[0-9]{1,5})?", re.IGNORECASE)
"""The Host header (RFC 9110, 7.2) of who asks from this machine."""
_NOT_HERE = "This preview is for this machine alone. Open it at the address that `casetrue serve` prints."
_LOOPBACK = ("127.0.0.1", "localhost", "::1")
_TRIES = 3
"""A build may take away a page between its writing and its reading."""


def _told(text: str, status: str, start_response: Callable[..., Any]) -> list[bytes]:
    body = f"{text}\n".encode()
    start_response(
        status, [("Content-Type", "text/plain; charset=utf-8"), ("Content-Length", str(len(body)))]
    )
    return [body]


class Preview:
    """Stands between MkDocs' server and its builds."""

    def __init__(self) -> None:
        self.faults: tuple[str, ...] = ()
        """Why the last build failed, a line each; empty after one that succeeded."""
        self.unwritten: Mapping[str, Callable[[], str]] = {}
        """Address to what makes the whole page, its body too: called by one thread at a time, not while a
        build runs, and only when somebody asks for the page."""
        self._making = Lock()

    def serve(self, server: LiveReloadServer, course: Path, watched: Iterable[str]) -> None:
        """Takes its place in a server that does not run yet. `course` is the folder of the course; `watched`
        are the files and folders that the server was told to watch."""
        from .watching import Watcher  # a build does without

        paths = [*dict.fromkeys(watched), str(course)]
        for path in paths[:-1]:
            server.unwatch(path)
        # MkDocs looks for changes twice a second, and waits for a tenth until they stop.
        server.observer = Watcher(LOOKING)  # type: ignore[assignment]
        server.build_delay = LOOKING / 4
        for path in paths:
            if course.resolve() not in Path(path).resolve().parents:
                server.watch(path)
        server.builder = self.guard(server.builder, course)
        for_all = server.server_address[0] not in _LOOPBACK
        server.set_app(self.over(server.serve_request, server.root, server.mount_path, for_all))

    def guard(self, build: Builder, course: Path | None = None) -> Builder:
        """A build that ends well whatever happens, so that the server goes on showing what there is. Without
        the course's folder nothing is built."""

        def guarded() -> None:
            if course is not None and not course.is_dir():
                self.faults = (
                    f"The folder {one_line(course)} is not there. Once it is back, the site follows.",
                )
                return
            try:
                with self._making:
                    build()
            except OSError as trouble:
                self.faults = (sentence(trouble),)
            except (Exception, SystemExit) as stopped:
                self.faults = tuple(str(stopped.__context__ or stopped).splitlines()) or (repr(stopped),)
            else:
                self.faults = ()

        return guarded

    def over(self, app: App, root: str, mount: str, for_all: bool = False) -> App:
        """The server's application (WSGI, PEP 3333) with unwritten pages, and with the faults on top of each.
        `root` is the folder of the site, `mount` the path in front of its addresses.

        Unless the server is there for all, who asks for a host of another name is refused: by such a name,
        led to this machine, a page from elsewhere could read the course.
        """

        def shown(environ: dict[str, Any], start_response: Callable[..., Any]) -> Iterable[bytes]:
            if not for_all and not _THIS_MACHINE.fullmatch(environ.get("HTTP_HOST", "localhost")):
                return _told(_NOT_HERE, "403 Forbidden", start_response)
            begun: list[Any] = []
            uri = environ["PATH_INFO"].removeprefix(mount)
            for _ in range(_TRIES):
                begun.clear()
                parts = app(environ, lambda *begin: begun.extend(begin))
                try:
                    if not begun[0].startswith("404") or not self._write(root, uri):
                        break
                except Exception as fault:
                    why = sentence(fault) if isinstance(fault, OSError) else repr(fault)
                    return _told(f"This page cannot be made. {why}", "500 Not Made", start_response)
            if not self.faults:
                start_response(*begun)
                return parts
            body = b"".join(parts)
            status, headers = begun[0], dict(begun[1])
            if headers.get("Content-Type", "").startswith("text/html"):
                body = _BODY.sub(lambda found: found.group() + self._notice(), body, count=1)
                headers["Content-Length"] = str(len(body))
            start_response(status, list(headers.items()))
            return [body]

        return shown

    def _write(self, root: str, uri: str) -> bool:
        """Writes a page, so that the server finds it as if the build had; false where there is none."""
        with self._making:
            make = self.unwritten.get(uri)
            if make is not None:
                file = Path(root, uri)
                file.parent.mkdir(parents=True, exist_ok=True)
                file.write_text(make(), encoding="utf-8")
        return make is not None

    def _notice(self) -> bytes:
        lines = "".join(f"<li>{html.escape(fault)}</li>" for fault in self.faults)
        return (
            '<div class="faults" role="alert"><p>The course could not be built. '
            f"This is the site as it was before.</p><ul>{lines}</ul></div>"
        ).encode()
