"""While serving: a build that fails leaves the site as it was, and every page says what is wrong."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterable
from typing import Any

Builder = Callable[[], None]
App = Callable[[dict[str, Any], Callable[..., Any]], Iterable[bytes]]

_BODY = re.compile(rb"<body\b[^>]*>")


class Preview:
    """Stands between MkDocs' server and its builds."""

    def __init__(self) -> None:
        self.faults: tuple[str, ...] = ()
        """Why the last build failed, a line each; empty after one that succeeded."""

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

    def over(self, app: App) -> App:
        """The server's application (WSGI, PEP 3333) with the faults on top of every page."""

        def shown(environ: dict[str, Any], start_response: Callable[..., Any]) -> Iterable[bytes]:
            if not self.faults:
                return app(environ, start_response)
            begun: list[Any] = []
            body = b"".join(app(environ, lambda *begin: begun.extend(begin)))
            status, headers = begun[0], dict(begun[1])
            if headers.get("Content-Type", "").startswith("text/html"):
                body = _BODY.sub(lambda found: found.group() + self._notice(), body, count=1)
                headers["Content-Length"] = str(len(body))
            start_response(status, list(headers.items()))
            return [body]

        return shown

    def _notice(self) -> bytes:
        lines = "".join(f"<li>{html.escape(fault)}</li>" for fault in self.faults)
        return (
            '<div class="faults" role="alert"><p>The course could not be built. '
            f"This is the site as it was before.</p><ul>{lines}</ul></div>"
        ).encode()
