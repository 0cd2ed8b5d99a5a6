"""What search looks through: one list, made while building and loaded when a learner first searches.

It holds titles, names and plain text, as each kind of page gives them (`Page.searchable`, `labels`, `parts`),
and the text of lessons. It holds no answer and no reason, and nothing that was decided about a client. Beside
these stand the families of their words (`word_families.py`) and the glossary's synonyms.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from html.parser import HTMLParser

from builder.answers import addresses
from builder.course import Course
from builder.words import Words

from .data_file import data_file
from .page import Asset, Page
from .word_families import families

NAME = "search"


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing to be found."""

    uri: str
    kind: str
    """What it is, in the interface's words."""
    title: str
    labels: tuple[str, ...]
    text: str
    first: bool = False
    """Whether it stands before whatever else is found: cautions do."""


def index(words: Words, course: Course, pages: Iterable[Page], lessons: Iterable[Entry]) -> Asset:
    """Every entry by address, cautions first. Labels recur: each is written once and named by its number."""
    by_uri = {entry.uri: entry for page in pages for entry in entries(words, page)}
    for lesson in lessons:
        by_uri[lesson.uri] = _joined(lesson, by_uri.get(lesson.uri))
    found = sorted(by_uri.values(), key=lambda entry: (not entry.first, entry.uri))
    kinds = sorted({entry.kind for entry in found})
    labels = sorted({label for entry in found for label in entry.labels})
    number = {label: at for at, label in enumerate(labels)}
    rows = [
        [
            entry.uri,
            kinds.index(entry.kind),
            entry.title,
            [number[label] for label in entry.labels],
            " ".join(entry.text.split()),
        ]
        for entry in found
    ]
    synonyms = [[term.label, *term.synonyms] for term in course.terms.values() if term.synonyms]

    def whole() -> dict[str, object]:
        texts = [*labels, *(text for entry in found for text in (entry.title, entry.text))]
        of = families(course.about.language, [*texts, *(text for some in synonyms for text in some)])
        return {
            "cautions": sum(entry.first for entry in found),
            "kinds": kinds,
            "labels": labels,
            "entries": rows,
            "endings": of.endings,
            "stems": of.stems,
            "synonyms": synonyms,
        }

    return data_file(addresses.SEARCH_INDEX, NAME, whole)


def entries(words: Words, page: Page) -> Iterator[Entry]:
    """The page, unless it only holds parts, and each of its parts."""
    kind, part_kind = _kinds(words, page.kind)
    if page.kind != "search":
        yield Entry(page.uri, kind, page.title, page.labels, page.searchable, page.kind == "caution")
    for part in page.parts:
        yield Entry(f"{page.uri}#{part.anchor}", part_kind, part.title, (), part.text)


def lesson(words: Words, uri: str, title: str, html: str) -> Entry:
    """A reading page, from the HTML that MkDocs made of it."""
    reader = _TextReader()
    reader.feed(html)
    reader.close()
    labels = tuple(" ".join("".join(heading).split()) for heading in reader.headings)
    return Entry(uri, words.say("Lesson"), title, labels, " ".join("".join(reader.text).split()))


def _joined(lesson: Entry, page: Entry | None) -> Entry:
    """The home page may hold an educator's own text beside ours."""
    if page is None:
        return lesson
    text = f"{page.text} {lesson.text}"
    return Entry(page.uri, page.kind, page.title, (*page.labels, *lesson.labels), text)


def _kinds(words: Words, kind: str) -> tuple[str, str]:
    """What a page of this kind is, and what its parts are."""
    page, part = words.say("Page"), words.say("Part of a page")
    return {
        "client": (words.say("Client"), part),
        "quiz": (words.say("Quiz"), part),
        "table": (words.say("Decision table"), part),
        "caution": (words.say("Caution"), part),
        "measures": (page, words.say("Measure")),
        "glossary": (page, words.say("Term")),
        "drill": (words.say("Drill"), part),
        "drill-walk": (words.say("Drill"), part),
        "positions": (page, words.say("Position")),
    }.get(kind, (page, part))


class _TextReader(HTMLParser):
    """The words of a lesson: its headings below the title, and its text."""

    _SILENT = ("script", "style")
    _INLINE = ("a", "abbr", "b", "code", "em", "i", "kbd", "mark", "small", "span", "strong", "sub", "sup")

    def __init__(self) -> None:
        super().__init__()
        self.text: list[str] = []
        self.headings: list[list[str]] = []
        self._inside: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in self._SILENT or tag in ("h1", "h2", "h3"):
            self._inside.append(tag)
        if tag in ("h2", "h3"):
            self.headings.append([])
        if tag == "img":
            self.text.append(f" {dict(attrs).get('alt') or ''} ")
        elif tag not in self._INLINE:
            self.text.append(" ")

    def handle_endtag(self, tag: str) -> None:
        if self._inside and self._inside[-1] == tag:
            self._inside.pop()

    def handle_data(self, data: str) -> None:
        where = self._inside[-1] if self._inside else ""
        if where in ("h2", "h3"):
            self.headings[-1].append(data)
        elif not where:
            self.text.append(data)
