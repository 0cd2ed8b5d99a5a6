"""Glossary and sources: absent where there is nothing to show."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from builder.answers import addresses
from builder.course import Term
from builder.words.order import sorting_key

from .. import prose
from ..citations import cite
from ..page import Page, Part
from ..site import Site


def pages(site: Site) -> Iterator[Page]:
    order = partial(sorting_key, site.words)
    terms = sorted(site.course.terms.values(), key=lambda term: (order(term.label), term.name))
    if terms:
        also = {term.name: _also(site, term) for term in terms if term.synonyms}
        body = site.drawn("glossary.html.j2", addresses.GLOSSARY, terms=terms, also=also)
        parts = tuple(
            Part(term.name, term.label, f"{prose.plain(term.text)} {also.get(term.name, '')}")
            for term in terms
        )
        yield Page(
            addresses.GLOSSARY,
            site.words.say("Glossary"),
            "glossary",
            body,
            parts=parts,
            source="glossary.yml",
        )
    sources = sorted(
        (cite(site.words, site.course, name) for name in site.course.sources),
        key=lambda source: (order(source.full), source.id),
    )
    if sources:
        body = site.drawn("sources.html.j2", addresses.SOURCES, sources=sources)
        yield Page(addresses.SOURCES, site.words.say("Sources"), "sources", body, source="sources.yml")


def _also(site: Site, term: Term) -> str:
    return site.words.say("People also type: {words}", words=", ".join(term.synonyms))
