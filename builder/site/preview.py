"""While serving: a build that fails leaves the site as it was, and every page says what is wrong.

Pages of which there are as many as clients are written when somebody asks for one: no build waits for them.
"""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

Builder = Callable[[], None]
App = Callable[[dict[str, Any], Callable[..., Any]], Iterable[bytes]]

_BODY = re.compile(rb"<body\b[^>]*>")


class Preview:
    """Stands between MkDocs' server and its builds."""

    def __init__(self) -> None:
        self.faults: tuple[str, ...] = ()
        """Why the last build failed, a line each; empty after one that succeeded."""
        self.unwritten: Mapping[str, Callable[[], str]] = {}
        """Address to what makes the page."""

    def guard(self, build: Builder) -> Builder:
        """A build that ends well whatever happens, so that the server goes on showing what there is."""

        def guarded() -> None:
            try:
                build()
            except (Exception, SystemExit) as stopped:
                self.faults = tuple(str(stopped.__context__ or stopped).splitlines()) or (repr(stopped),)
            else:
                self.faults = ()

        return guarded

    def over(self, app: App, root: str, mount: str) -> App:
        """The server's application (WSGI, PEP 3333) with unwritten pages, and with the faults on top of each.
        `root` is the folder of the site, `mount` the path in front of its addresses."""

        def shown(environ: dict[str, Any], start_response: Callable[..., Any]) -> Iterable[bytes]:
            begun: list[Any] = []
            parts = app(environ, lambda *begin: begun.extend(begin))
            uri = environ["PATH_INFO"].removeprefix(mount)
            if begun[0].startswith("404") and uri in self.unwritten:
                self._write(Path(root, uri), self.unwritten[uri])
                begun.clear()
                parts = app(environ, lambda *begin: begun.extend(begin))
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

    @staticmethod
    def _write(file: Path, make: Callable[[], str]) -> None:
        """The server finds the page as if the build had written it."""
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(make(), encoding="utf-8")

    def _notice(self) -> bytes:
        lines = "".join(f"<li>{html.escape(fault)}</li>" for fault in self.faults)
        return (
            '<div class="faults" role="alert"><p>The course could not be built. '
            f"This is the site as it was before.</p><ul>{lines}</ul></div>"
        ).encode()
