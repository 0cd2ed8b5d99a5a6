"""Glossary and sources: absent where there is nothing to show."""

from __future__ import annotations

from collections.abc import Iterator

from .. import prose, uris
from ..citations import cite
from ..page import Page, Part
from ..site import Site


def pages(site: Site) -> Iterator[Page]:
    terms = sorted(site.course.terms.values(), key=lambda term: (term.label.casefold(), term.name))
    if terms:
        body = site.render("glossary.html.j2", uris.GLOSSARY, terms=terms)
        parts = tuple(Part(term.name, term.label, prose.plain(term.text)) for term in terms)
        yield Page(
            uris.GLOSSARY,
            site.words.say("Glossary"),
            "glossary",
            body,
            parts=parts,
            source="glossary.yml",
        )
    sources = sorted(
        (cite(site.words, site.course, name) for name in site.course.sources),
        key=lambda source: (source.full.casefold(), source.id),
    )
    if sources:
        body = site.render("sources.html.j2", uris.SOURCES, sources=sources)
        yield Page(uris.SOURCES, site.words.say("Sources"), "sources", body, source="sources.yml")
