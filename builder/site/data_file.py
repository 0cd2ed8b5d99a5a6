"""Data that the browser loads when it needs it.

From disk only classic scripts load, so a data file is one: inert JSON put under its own name into one
variable; `web/parts.js` reads it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable

from .page import Asset

_MARKUP = re.compile(r"<(?=/?script|!--)", re.IGNORECASE)


def data_file(uri: str, name: str, value: Callable[[], object]) -> Asset:
    """What `value` makes, as JSON in a script at `uri`, to be asked for by `name`."""
    return Asset(uri, lambda: f"(window.casetrueParts??={{}})[{_inert(name)}]={_inert(value())};\n")


def _inert(value: object) -> str:
    """JSON, which is ECMAScript without an action (ECMA-262, since 2019). It stays inert where someone copies
    it into a page; other markup in it is left as it is, since most of a data file is HTML."""
    text = json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return _MARKUP.sub(r"\\u003c", text).replace("\u2028", r"\u2028").replace("\u2029", r"\u2029")
