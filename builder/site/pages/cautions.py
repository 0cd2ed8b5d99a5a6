"""Cautions: an overview by level, and a page each."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from typing import get_args

from builder.answers import addresses
from builder.checks.reviews import awaits_clinician
from builder.course import Caution, Level
from builder.words.sentences import label

from .. import prose
from ..page import Page
from ..site import Site


def pages(site: Site) -> Iterator[Page]:
    cautions = list(site.course.cautions.values())
    if not cautions:
        return
    heading = site.words.say("Cautions")
    by_level = [(level, [one for one in cautions if one.level == level]) for level in get_args(Level)]
    yield Page(
        addresses.CAUTIONS,
        heading,
        "cautions",
        site.drawn(
            "cautions.html.j2",
            addresses.CAUTIONS,
            levels=[(level, some) for level, some in by_level if some],
            unreviewed=sum(awaits_clinician(one) for one in cautions),
        ),
        site.words.say("What tells you to stop, and whom to send a client to."),
    )
    for caution in cautions:
        here = addresses.caution(caution.name)
        yield Page(
            here,
            caution.title,
            "caution",
            site.drawn("caution.html.j2", here, caution=caution),
            searchable=prose.plain(caution.text),
            labels=_looks_at(site, caution),
            trail=((addresses.CAUTIONS, heading),),
            source=caution.origin.file or None,
        )


def _looks_at(site: Site, caution: Caution) -> tuple[str, ...]:
    """The measures that tell of a caution."""
    return tuple(label(site.course, name) for name in dict.fromkeys(chain.from_iterable(caution.when)))
