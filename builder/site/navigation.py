"""The way around the site where `mkdocs.yml` has no `nav`: a few words, and the rest under More."""

from __future__ import annotations

from collections.abc import Collection

from builder.answers import addresses
from builder.words import Words

Entry = dict[str, "str | list[Entry]"]


def navigation(words: Words, made: Collection[str]) -> list[Entry]:
    """MkDocs' `nav`, over those pages that the course has."""

    def some(*entries: tuple[str, str]) -> list[Entry]:
        return [{label: markdown(uri)} for uri, label in entries if uri in made]

    more = some(
        (addresses.TABLES, words.say("Decision tables")),
        (addresses.POSITIONS, words.say("Positions")),
        (addresses.MEASURES, words.say("Measures")),
        (addresses.GLOSSARY, words.say("Glossary")),
        (addresses.SOURCES, words.say("Sources")),
        (addresses.ABOUT, words.say("About")),
        (addresses.SEARCH, words.say("Search")),
        (addresses.EDUCATOR, words.say("For the educator")),
    )
    return [
        {words.say("Home"): markdown(addresses.HOME)},
        *some(
            (addresses.LESSONS, words.say("Learn")),
            (addresses.CLIENTS, words.say("Clients")),
            (addresses.QUIZZES, words.say("Quizzes")),
            (addresses.DRILLS, words.say("Drills")),
            (addresses.CAUTIONS, words.say("Cautions")),
            (addresses.RECORD, words.say("My record")),
        ),
        {words.say("More"): more},
    ]


def markdown(uri: str) -> str:
    """The name that MkDocs knows a page by."""
    return uri.removesuffix(".html") + ".md"
