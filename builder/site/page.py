"""What a kind of page hands over: pages, and files beside them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a page that search finds by itself, for example one measure."""

    anchor: str
    title: str
    """Plain text."""
    text: str = ""
    """Plain text. Never an answer or a reason."""


@dataclass(frozen=True)
class Page:
    """One page, free of any theme."""

    uri: str
    """Address from the site's root, for example `clients/tern-03.html`."""
    title: str
    """Plain text."""
    kind: str
    """Name of the kind, for example `client`: a hook for style, search and tests."""
    draw: Callable[[], str] = field(repr=False, compare=False)
    """Makes the HTML inside `<main>`, which starts with the only `<h1>`."""
    description: str = ""
    """One plain sentence."""
    searchable: str = ""
    """Plain text that search may look through. Never an answer or a reason."""
    labels: tuple[str, ...] = ()
    """Names of what the page is about: search weighs them above `searchable`. Never an answer."""
    parts: tuple[Part, ...] = ()
    trail: tuple[tuple[str, str], ...] = ()
    """Address and label of the pages above this one, the home page left out."""
    source: str | None = None
    """The file that it comes from, below the course folder."""
    grows: bool = False
    """Whether there are as many of this kind as clients. Such pages stay out of the theme's own list."""

    @cached_property
    def body(self) -> str:
        """What `draw` makes, made once."""
        return self.draw()


@dataclass(frozen=True)
class Asset:
    """A file that pages use."""

    uri: str
    draw: Callable[[], str] = field(repr=False, compare=False)
    """Makes what the file holds."""

    @cached_property
    def text(self) -> str:
        """What `draw` makes, made once."""
        return self.draw()


Made = Page | Asset
"""What a kind of page hands over."""
