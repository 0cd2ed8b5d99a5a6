"""The look of the owner's pages: that of the course, and a sheet of their own."""

from __future__ import annotations

from pathlib import Path

from ..assets import compact

LOOK = "look.css"
"""The file beside the pages."""

_HERE = Path(__file__).parent


def look() -> str:
    base = _HERE.parent / "style" / "base.css"
    return compact("".join(file.read_text("utf-8") for file in (base, _HERE / "owner.css")))
