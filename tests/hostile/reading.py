"""Reads built HTML and data files back, and says where a text of the course became more than text."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from html.parser import HTMLParser
from typing import Any
from urllib.parse import urlsplit

PROSE = frozenset(
    {"a", "b", "blockquote", "br", "code", "dd", "div", "dl", "dt", "em", "h2", "h3", "h4", "h5", "h6", "hr"}
    | {"li", "ol", "p", "pre", "span", "strong", "table", "tbody", "td", "th", "thead", "tr", "ul"}
)
"""What CommonMark makes, and what our own templates put around a text or leave out where it is empty."""
DRAWN = frozenset(
    ("circle", "desc", "g", "line", "path", "polygon", "polyline", "rect", "svg", "text", "title", "tspan")
)
"""Drawings grow and vanish with the length of their labels."""
PROSE_ATTRIBUTES = frozenset({"class", "href", "rel", "start", "title"})
SCHEMES = frozenset({"", "http", "https", "mailto"})
_IGNORED_BY_BROWSERS = re.compile(r"[\x00-\x20\x7f-\x9f\s]")
_ACTIVE = re.compile("</?script|<!--|[\u2028\u2029]", re.IGNORECASE)
_DATA_FILE = re.compile(r'\(window\.casetrueParts\?\?=\{\}\)\["[A-Za-z0-9_.-]+"\]=(.*);\n', re.DOTALL)


class Shape(HTMLParser):
    """The elements and attributes of a page: what the same page with other words must share."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: Counter[str] = Counter()
        self.attributes: set[tuple[str, str]] = set()
        self.addresses: set[str] = set()
        self.sources: set[str] = set()
        self.data: list[str] = []
        self._inert = False
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements[tag] += 1
        values = {name: value or "" for name, value in attrs}
        self.attributes.update((tag, name) for name in values)
        self.addresses.update(value for name, value in values.items() if name in ("href", "action"))
        self.sources.update(value for name, value in values.items() if name in ("src", "srcset", "poster"))
        self._inert = tag == "script" and values.get("type") == "application/json"

    def handle_endtag(self, tag: str) -> None:
        self._inert = False

    def handle_data(self, data: str) -> None:
        if self._inert:
            self.data.append(data)

    def handle_comment(self, data: str) -> None:
        self.elements["comment"] += 1

    def handle_decl(self, decl: str) -> None:
        self.elements["declaration"] += 1

    def handle_pi(self, data: str) -> None:
        self.elements["instruction"] += 1

    def unknown_decl(self, data: str) -> None:
        self.elements["marked section"] += 1


@cache
def shape(plain: str) -> Shape:
    return Shape(plain)


def faults(html: str, plain: str) -> Iterator[str]:
    """How a page with hostile texts differs from the page with plain ones; nothing where it is sound."""
    seen, sound = Shape(html), shape(plain)
    for tag in sorted(seen.elements.keys() | sound.elements.keys()):
        there, wanted = seen.elements[tag], sound.elements[tag]
        if tag not in PROSE | DRAWN and there != wanted:
            yield f"{there} elements {tag}, not {wanted}"
    for tag, name in sorted(seen.attributes - sound.attributes):
        if ((tag not in PROSE or name not in PROSE_ATTRIBUTES) and tag not in DRAWN) or name.startswith("on"):
            yield f"attribute {name} of {tag}"
    for address in sorted(seen.addresses):
        if urlsplit(_IGNORED_BY_BROWSERS.sub("", address)).scheme.lower() not in SCHEMES:
            yield f"address {address}"
        elif address.startswith(("//", "\\", "/\\")):
            yield f"foreign address {address}"
    for source in sorted(seen.sources - sound.sources):
        yield f"picture or script {source}"
    for text in seen.data:
        json.loads(text)


def data_faults(text: str, plain: str) -> Iterator[str]:
    """The same for a data file: one assignment of inert JSON, and sound HTML in it."""
    found, sound = _DATA_FILE.fullmatch(text), _DATA_FILE.fullmatch(plain)
    assert sound
    if found is None:
        yield "is no data file any more"
        return
    for sign in _ACTIVE.findall(found[1]):
        yield f"holds {sign!r}"
    yield from faults("".join(_html(json.loads(found[1]))), "".join(_html(json.loads(sound[1]))))


def manifest_faults(text: str, plain: str) -> Iterator[str]:
    """The same for the manifest: only what is told to people differs."""
    made, sound = json.loads(text), json.loads(plain)
    if made.keys() != sound.keys():
        yield "has other members"
    for member in sound.keys() - {"name", "short_name", "description", "lang"}:
        if made.get(member) != sound[member]:
            yield f"member {member}"


def _html(part: Any) -> Iterator[str]:
    """The HTML in a data file of a quiz; other data files hold none."""
    if isinstance(part, dict):
        yield from (question["html"] for question in part.get("questions", ()))
        yield from part.get("readings", {}).values()
