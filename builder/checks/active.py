"""What in a piece of HTML or SVG would act by itself: run, load, or lead away."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from dataclasses import dataclass

ELEMENTS = frozenset(
    (
        *("script", "base", "meta", "link", "iframe", "frame", "frameset"),
        *("object", "embed", "applet", "portal", "fencedframe"),
    )
)
_WORDS = frozenset(("alt", "title", "aria-label"))
"""Attributes that are read to people and nothing else."""
DRAWING_ELEMENTS = ELEMENTS | {"foreignobject", "handler", "listener"}

# Tags are read as browsers read them (WHATWG HTML, Tokenization). What stands in a comment or a quoted value
# counts as if it stood in the open: where a comment ends is a thing that readers of HTML disagree about.
_GAP = r"[\t\n\f\r ]"
_TAG = re.compile(r"<([^\t\n\f\r <>/!?=][^\t\n\f\r <>/]*)")
_BETWEEN = re.compile(r"[\t\n\f\r /]*")
_ATTRIBUTE = re.compile(
    r"([^\t\n\f\r />][^\t\n\f\r />=]*)"
    rf"""(?:{_GAP}*={_GAP}*("[^"]*(?:"|\Z)|'[^']*(?:'|\Z)|[^\t\n\f\r >"'][^\t\n\f\r >]*|))?"""
)
_LETTERS = re.compile(r"[^a-z:]+")
_RUNS = re.compile(r"(?:java|vb|live)script:")
_BEFORE_SVG = re.compile(r"<!ENTITY|<!DOCTYPE[^<>\[]*\[|<\?xml-stylesheet", re.IGNORECASE)
_OTHER_ENCODING = re.compile(
    r"""<\?xml[^<>]*\sencoding\s*=\s*["'](?!utf-8["']|us-ascii["'])""", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Active:
    what: str
    """As it is written, cut where it is long."""
    at: int
    """Where its tag starts."""


def active(markup: str, elements: frozenset[str] = ELEMENTS) -> Iterator[Active]:
    """Elements that act, event handlers, and addresses that are scripts."""
    for tag in _TAG.finditer(markup):
        if tag[1].lower().rpartition(":")[2] in elements:
            yield Active(f"<{tag[1]}>", tag.start())
        for name, value in _attributes(markup, tag.end()):
            local = name.lower().rpartition(":")[2]
            if "<" in name:
                yield Active(f"<{tag[1]}", tag.start())  # a tag within a tag: nobody can say how it is read
                break
            if local.startswith("on") and local[2:].isalpha():
                yield Active(f"{name}=", tag.start())
            if local not in _WORDS and is_script(value):
                yield Active(" ".join(f"{name}={value}".split())[:40], tag.start())


def active_drawing(svg: str) -> Iterator[Active]:
    """The same of an SVG file, which browsers open as a page of its own."""
    for sign in (_BEFORE_SVG, _OTHER_ENCODING):
        for found in sign.finditer(svg):
            yield Active(found[0][:40], found.start())
    yield from active(svg, DRAWING_ELEMENTS)


def is_script(address: str) -> bool:
    """Whether an address, or a text that may be or become one, is a script however it is disguised."""
    return bool(_RUNS.search(_LETTERS.sub("", html.unescape(address).lower())))


def _attributes(markup: str, at: int) -> Iterator[tuple[str, str]]:
    while True:
        gap = _BETWEEN.match(markup, at)
        found = _ATTRIBUTE.match(markup, gap.end() if gap else at)
        if found is None:
            return
        yield found[1], found[2] or ""
        at = found.end()
