"""An educator's prose as safe HTML: CommonMark, with raw HTML off and links held to what is safe.

HTML in the text appears as text. An unsafe link or a picture from elsewhere becomes its own text. Headings
start below the page's own.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from markupsafe import Markup

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.token import Token

SAFE_SCHEMES = ("http", "https", "mailto")
Resolve = Callable[[str], str | None]
"""From a relative link as written to the link on this page; None where there is no such page."""

_CONTROL = re.compile(r"[\x00-\x20\x7f-\x9f\s]")
_SIGN = r"[^\x00-\x1f\s\\`*_\[\]<>&]"
_LINE = rf"[^\W\d_]{_SIGN}*(?: {_SIGN}+)*"
_UNMARKED = re.compile(rf"{_LINE}(?:\n{{1,2}}{_LINE})*")
"""Paragraphs in which nothing means anything to CommonMark: every line starts with a letter, and no sign
marks anything up. Most of what educators write is so, and needs no parser."""


def blocks(text: str, resolve: Resolve) -> Markup:
    """Prose as paragraphs, lists, tables and headings from `<h2>` down."""
    text = text.rstrip("\n")
    if _UNMARKED.fullmatch(text):
        return Markup("\n".join(f"<p>{_quoted(paragraph)}</p>" for paragraph in text.split("\n\n")))
    return Markup(_render(text, resolve, inline=False))


def line(text: str, resolve: Resolve) -> Markup:
    """Prose as one line: emphasis, code and links, no blocks."""
    text = " ".join(text.split())
    if _UNMARKED.fullmatch(text):
        return Markup(_quoted(text))
    return Markup(_render(text, resolve, inline=True))


def plain(text: str) -> str:
    """The words of a prose text alone, on one line."""
    if not _UNMARKED.fullmatch(text.rstrip("\n")):
        text = " ".join(_words(_parser().parse(text)))
    return " ".join(text.split())


def _quoted(text: str) -> str:
    return text.replace('"', "&quot;")


@cache
def _parser() -> MarkdownIt:
    from markdown_it import MarkdownIt  # a build that makes nothing of prose anew does without

    parser = MarkdownIt("commonmark", {"html": False}).enable("table")
    # Links are judged in one place, `_mend`; the parser would turn some unsafe ones into brackets.
    parser.validateLink = lambda url: True  # type: ignore[method-assign]
    return parser


def _render(text: str, resolve: Resolve, *, inline: bool) -> str:
    parser = _parser()
    tokens = parser.parseInline(text) if inline else parser.parse(text)
    _mend(tokens, resolve)
    return str(parser.renderer.render(tokens, parser.options, {})).strip()


def _mend(tokens: Sequence[Token], resolve: Resolve) -> None:
    """Makes tokens safe for our pages, in place."""
    for token in tokens:
        if token.type in ("heading_open", "heading_close"):
            token.tag = f"h{min(int(token.tag[1]) + 1, 6)}"
        elif token.type in ("th_open", "td_open"):
            _class_for_alignment(token)
        if token.children:
            token.children = _mend_line(token.children, resolve)


def _class_for_alignment(token: Token) -> None:
    style = str(token.attrs.pop("style", ""))
    if style.endswith(("right", "center")):
        token.attrJoin("class", "to-" + style.rpartition(":")[2].strip())


def _mend_line(tokens: Sequence[Token], resolve: Resolve) -> list[Token]:
    kept: list[Token] = []
    links: list[bool] = []
    for token in tokens:
        if token.type == "link_open":
            address = safe_link(str(token.attrs.get("href", "")), resolve)
            links.append(address is not None)
            if address is None:
                continue
            token.attrs["href"] = address
            if urlsplit(address).scheme in ("http", "https"):
                token.attrs["rel"] = "external noreferrer"
        elif token.type == "link_close":
            if not links.pop():
                continue
        elif token.type == "image":
            address = resolve(str(token.attrs.get("src", "")))
            if address is None:
                kept.append(replace(token, type="text", tag="", attrs={}, children=None))
                continue
            token.attrs["src"] = address
        kept.append(token)
    return kept


def safe_link(address: str, resolve: Resolve) -> str | None:
    """The link as it may stand on a page; None where it may not."""
    try:
        scheme = urlsplit(_CONTROL.sub("", address)).scheme.lower()
    except ValueError:
        return None
    if scheme:
        return address if scheme in SAFE_SCHEMES else None
    return resolve(address)


def _words(tokens: Sequence[Token]) -> list[str]:
    words: list[str] = []
    for token in tokens:
        if token.children:
            words.append("".join(_inline_words(token.children)))
        elif token.type in ("fence", "code_block"):
            words.append(token.content)
    return words


def _inline_words(tokens: Sequence[Token]) -> list[str]:
    return [" " if token.type in ("softbreak", "hardbreak") else token.content for token in tokens]
