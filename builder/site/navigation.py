"""The way around the site where `mkdocs.yml` has no `nav`: a few words, and the rest under More."""

from __future__ import annotations

from collections.abc import Collection

from builder.words import Words

from . import uris

Entry = dict[str, "str | list[Entry]"]


def navigation(words: Words, made: Collection[str]) -> list[Entry]:
    """MkDocs' `nav`, over those pages that the course has."""

    def some(*entries: tuple[str, str]) -> list[Entry]:
        return [{label: markdown(uri)} for uri, label in entries if uri in made]

    more = some(
        (uris.TABLES, words.say("Decision tables")),
        (uris.POSITIONS, words.say("Positions")),
        (uris.MEASURES, words.say("Measures")),
        (uris.GLOSSARY, words.say("Glossary")),
        (uris.SOURCES, words.say("Sources")),
        (uris.ABOUT, words.say("About")),
        (uris.SEARCH, words.say("Search")),
    )
    return [
        {words.say("Home"): markdown(uris.HOME)},
        *some(
            (uris.LESSONS, words.say("Learn")),
            (uris.CLIENTS, words.say("Clients")),
            (uris.QUIZZES, words.say("Quizzes")),
            (uris.DRILLS, words.say("Drills")),
            (uris.CAUTIONS, words.say("Cautions")),
            (uris.RECORD, words.say("My record")),
        ),
        {words.say("More"): more},
    ]


def markdown(uri: str) -> str:
    """The name that MkDocs knows a page by."""
    return uri.removesuffix(".html") + ".md"
