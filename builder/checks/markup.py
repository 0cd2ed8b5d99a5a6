"""What of an educator's markup a page will not show as meant."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html.parser import HTMLParser

from markdown_it import MarkdownIt
from markdown_it.token import Token

_SUSPECT = re.compile(r"<[A-Za-z/!?]|\]\s*[(\[:]|<\w+:")
"""A cheap sign of HTML, a link or a picture; texts without it need no parser."""
_SAFE = ("http", "https", "mailto")
_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*(?=:)")
_DEFINED = re.compile(r"[\s>*+-]*\[[^\[\]]*\]:[ \t]*<?([^\s<>]*)")
_HIDDEN = re.compile(r"[\x00-\x20\x7f-\x9f\s]")


def ignored(text: str) -> Iterator[str]:
    """HTML tags and unsafe links of a prose text, as written."""
    for token in _tokens(text):
        if token.type in ("html_block", "html_inline"):
            yield token.content.strip().splitlines()[0]
        elif token.type == "link_open":
            address = str(token.attrs.get("href", ""))
            scheme = _scheme(address)
            if scheme and scheme not in _SAFE:
                yield address


def foreign_images(text: str) -> Iterator[str]:
    """Addresses of pictures in a prose text that lie outside the course."""
    for token in _tokens(text):
        if token.type == "image" and _is_foreign(str(token.attrs.get("src", ""))):
            yield str(token.attrs.get("src", ""))


@dataclass(frozen=True, slots=True)
class Address:
    """Where a lesson leads to, and where that stands, from 1."""

    address: str
    is_image: bool
    line: int
    column: int

    @property
    def is_foreign(self) -> bool:
        return _is_foreign(self.address)


def addresses(text: str) -> Iterator[Address]:
    """The links and pictures of a lesson; not those in code, and no links in HTML."""
    lines = text.split("\n")
    # An address may stand away from its link: `[name]: address`.
    defined = {found[1]: n for n, line in reversed([*enumerate(lines)]) if (found := _DEFINED.match(line))}
    for token in _PARSER.parse(text):
        if token.map is None:
            continue
        for part in _flat([token]):
            for address in _addresses(part):
                here = (n for n in range(*token.map) if n < len(lines) and address in lines[n])
                line = next(here, defined.get(address, token.map[0]))
                column = max(0, lines[line].find(address))
                yield Address(address, part.type != "link_open", line + 1, column + 1)


def _addresses(part: Token) -> list[str]:
    if part.type in ("image", "link_open"):
        address = str(part.attrs.get("src") or part.attrs.get("href") or "")
        return [address] if address else []
    return _Pictures.of(part.content) if part.type in ("html_block", "html_inline") else []


class _Pictures(HTMLParser):
    """The addresses of the pictures in a piece of HTML."""

    def __init__(self) -> None:
        super().__init__()
        self._found: list[str] = []

    @staticmethod
    def of(html: str) -> list[str]:
        reader = _Pictures()
        reader.feed(html)
        return reader._found

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "img":
            self._found += [value for name, value in attrs if name == "src" and value]


def _is_foreign(address: str) -> bool:
    return bool(_scheme(address)) or address.startswith("//")


def _scheme(address: str) -> str:
    match = _SCHEME.match(_HIDDEN.sub("", address))
    return match[0].lower() if match else ""


def _tokens(text: str) -> Iterator[Token]:
    if _SUSPECT.search(text):
        yield from _flat(_PARSER.parse(text))


def _flat(tokens: Sequence[Token]) -> Iterator[Token]:
    for token in tokens:
        yield token
        yield from _flat(token.children or ())


def _parser() -> MarkdownIt:
    """Takes HTML and every link for what they are, as written, so that they can be told and found."""
    parser = MarkdownIt("commonmark", {"html": True})
    parser.validateLink = lambda url: True  # type: ignore[method-assign]
    parser.normalizeLink = lambda url: url  # type: ignore[method-assign]
    return parser


_PARSER = _parser()
