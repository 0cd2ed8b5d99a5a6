"""An educator's prose as safe HTML: CommonMark, with raw HTML off and links held to what is safe.

HTML in the text appears as text. An unsafe link or a picture from elsewhere becomes its own text. Headings
start below the page's own.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from urllib.parse import urlsplit

from markdown_it import MarkdownIt
from markdown_it.renderer import RendererHTML
from markdown_it.token import Token
from markupsafe import Markup

SAFE_SCHEMES = ("http", "https", "mailto")
Resolve = Callable[[str], str | None]
"""From a relative link as written to the link on this page; None where there is no such page."""

_CONTROL = re.compile(r"[\x00-\x20\x7f-\x9f\s]")


def blocks(text: str, resolve: Resolve) -> Markup:
    """Prose as paragraphs, lists, tables and headings from `<h2>` down."""
    return Markup(_render(text, resolve, inline=False))


def line(text: str, resolve: Resolve) -> Markup:
    """Prose as one line: emphasis, code and links, no blocks."""
    return Markup(_render(" ".join(text.split()), resolve, inline=True))


def plain(text: str) -> str:
    """The words of a prose text alone, on one line."""
    return " ".join(" ".join(_words(_PARSER.parse(text))).split())


def _parser() -> MarkdownIt:
    parser = MarkdownIt("commonmark", {"html": False}).enable("table")
    # Links are judged in one place, `_mend`; the parser would turn some unsafe ones into brackets.
    parser.validateLink = lambda url: True  # type: ignore[method-assign]
    return parser


_PARSER = _parser()


def _render(text: str, resolve: Resolve, *, inline: bool) -> str:
    tokens = _PARSER.parseInline(text) if inline else _PARSER.parse(text)
    _mend(tokens, resolve)
    renderer = _PARSER.renderer
    assert isinstance(renderer, RendererHTML)
    return renderer.render(tokens, _PARSER.options, {}).strip()


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
                kept.append(Token("text", "", 0, content=token.content))
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
