"""CSL-JSON items as people read them: a short form within a line, a full one for the list of sources."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from builder.course import COMMON_PRACTICE, FROM_MEMORY, Course
from builder.words import Words


@dataclass(frozen=True, slots=True)
class Citation:
    """A source in words. All texts are plain; `link` is an http address or empty."""

    id: str
    short: str
    """Authors and year: `Soucie et al. 2011`."""
    full: str
    link: str = ""


def cite(words: Words, course: Course, name: str) -> Citation:
    """The citation of a source's id. The reserved names say that nothing was published, an unknown one shows
    itself."""
    if name == COMMON_PRACTICE:
        text = words.say("Common practice: no published source")
        return Citation(name, text, text)
    if name == FROM_MEMORY:
        text = words.say("Written from memory: no published source was read")
        return Citation(name, text, text)
    source = course.sources.get(name)
    return _citation(words, name, source.item) if source else Citation(name, name, name)


def _citation(words: Words, name: str, item: Mapping[str, Any]) -> Citation:
    year = _year(item)
    people = _people(item.get("author")) or _people(item.get("editor"))
    title = _text(item, "title")
    head = (
        _short(words, [family for family, _ in people])
        or _text(item, "publisher")
        or _text(item, "container-title")
        or title
        or name
    )
    short = f"{head} {year}".strip()
    holder = _text(item, "container-title")
    volume = _text(item, "volume") + (f"({_text(item, 'issue')})" if _text(item, "issue") else "")
    place = " ".join(part for part in (holder, volume) if part)
    pages = _text(item, "page")
    if pages:
        place = f"{place}: {pages}" if place else words.say("pages {pages}", pages=pages)
    doi = _text(item, "DOI")
    parts = [
        ", ".join(f"{family} {initials}".strip() for family, initials in people),
        f"({year})" if year else "",
        f"{title}." if title and not title.endswith((".", "?", "!")) else title,
        f"{place}." if place else "",
        f"{_text(item, 'publisher')}." if _text(item, "publisher") else "",
        f"doi:{doi}." if doi else "",
        _text(item, "note"),
    ]
    return Citation(name, short, " ".join(part for part in parts if part) or name, _link(item, doi))


def _people(value: object) -> list[tuple[str, str]]:
    """Family name and initials of each; a body has its name alone."""
    names = []
    for person in value if isinstance(value, list | tuple) else ():
        if not isinstance(person, Mapping):
            continue
        family = " ".join(
            _text(person, key) for key in ("non-dropping-particle", "family") if _text(person, key)
        )
        initials = "".join(part[0] for part in _text(person, "given").replace("-", " ").split())
        names.append((family, initials) if family or initials else (_text(person, "literal"), ""))
    return [name for name in names if any(name)]


def _short(words: Words, families: list[str]) -> str:
    if len(families) > 2 or families[1:] == ["and others"]:
        return words.say("{first} et al.", first=families[0])
    return " & ".join(families)


def _year(item: Mapping[str, Any]) -> str:
    issued = item.get("issued")
    if isinstance(issued, Mapping):
        parts = issued.get("date-parts")
        if isinstance(parts, list | tuple) and parts and isinstance(parts[0], list | tuple) and parts[0]:
            return str(parts[0][0])
        return _text(issued, "raw") or _text(issued, "literal")
    if isinstance(issued, list | tuple) and issued and isinstance(issued[0], Mapping):
        return _text(issued[0], "year")
    return str(issued)[:4] if isinstance(issued, str | int) else ""


def _link(item: Mapping[str, Any], doi: str) -> str:
    if doi:
        return f"https://doi.org/{doi}"
    address = _text(item, "URL")
    return address if address.startswith(("https://", "http://")) else ""


def _text(item: Mapping[str, Any], key: str) -> str:
    value = item.get(key)
    return str(value).strip() if isinstance(value, str | int | float) else ""
