"""A synchronous client of WebDriver BiDi, as far as the tests need it.

Standard: W3C WebDriver BiDi, https://www.w3.org/TR/webdriver-bidi/
"""

from __future__ import annotations

import contextlib
import json
from collections.abc import Callable, Mapping
from typing import Any

from websockets.sync.client import connect

Event = Callable[[str, Mapping[str, Any]], None]
ANSWER_SECONDS = 60


class BidiError(Exception):
    """The browser refused a command; `code` is the standard's error code."""

    def __init__(self, method: str, code: str, message: str) -> None:
        super().__init__(f"{method}: {code}: {message}")
        self.code = code


class Connection:
    """One command at a time; events that arrive meanwhile go to `on_event`, in order."""

    def __init__(self, url: str, on_event: Event) -> None:
        self._close = contextlib.ExitStack()
        self._socket = self._close.enter_context(connect(url, max_size=None, proxy=None, ping_interval=None))
        self._on_event = on_event
        self._count = 0

    def send(self, method: str, /, **params: Any) -> dict[str, Any]:
        """The `result` of a command.

        Raises BidiError when the browser refuses it and TimeoutError when it does not answer.
        """
        number = self.tell(method, **params)
        while True:
            message = json.loads(self._socket.recv(timeout=ANSWER_SECONDS))
            if message.get("type") == "event":
                self._on_event(message["method"], message["params"])
            elif message.get("id") == number:
                if message["type"] == "error":
                    raise BidiError(method, message["error"], message["message"])
                return message["result"]

    def tell(self, method: str, /, **params: Any) -> int:
        """Sends a command without waiting, from `on_event` too; its answer is dropped. Returns its number."""
        self._count += 1
        self._socket.send(json.dumps({"id": self._count, "method": method, "params": params}))
        return self._count

    def close(self) -> None:
        self._close.close()


def plain(value: Mapping[str, Any]) -> Any:
    """A remote value as Python's own: a node becomes a dict with the one key `sharedId`."""
    kind, inner = value["type"], value.get("value")
    if kind in ("undefined", "null"):
        return None
    if kind == "number":
        return float(inner.replace("Infinity", "inf")) if isinstance(inner, str) else inner
    if kind in ("array", "set", "nodelist", "htmlcollection"):
        return [plain(item) for item in inner or ()]
    if kind in ("object", "map"):
        return {key if isinstance(key, str) else plain(key): plain(item) for key, item in inner or ()}
    if kind == "node":
        return {"sharedId": value["sharedId"]}
    return inner


def remote(value: Any) -> dict[str, Any]:
    """Python's own value as an argument of a function in the page."""
    if isinstance(value, dict) and set(value) == {"sharedId"}:
        return value
    if value is None:
        return {"type": "null"}
    if isinstance(value, bool):
        return {"type": "boolean", "value": value}
    if isinstance(value, int | float):
        return {"type": "number", "value": value}
    if isinstance(value, str):
        return {"type": "string", "value": value}
    if isinstance(value, dict):
        return {"type": "object", "value": [[key, remote(item)] for key, item in value.items()]}
    return {"type": "array", "value": [remote(item) for item in value]}
