"""Reads built pages."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from lxml import html


def pages(site: Path) -> Iterator[tuple[str, html.HtmlElement]]:
    """Every HTML page of a built site by its address, in order."""
    for file in sorted(site.rglob("*.html")):
        yield file.relative_to(site).as_posix(), html.document_fromstring(file.read_bytes())
