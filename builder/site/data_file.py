"""Data that the browser loads when it needs it.

From disk only classic scripts load, so a data file is one: inert JSON put under its own name into one
variable; `web/parts.js` reads it.
"""

from __future__ import annotations

from .environment import inert
from .page import Asset


def data_file(uri: str, name: str, value: object) -> Asset:
    """`value` as JSON in a script at `uri`, to be asked for by `name`."""
    return Asset(uri, f"(window.casetrueParts??={{}})[{inert(name)}]={inert(value)};\n")
