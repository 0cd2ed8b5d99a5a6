"""How sure a client's decision is, and what would have changed it, as their page says it after the answer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from builder.course import Case, NumberScale
from builder.decide.doubt import SURE_ENOUGH, chance, lines, standard_error
from builder.decide.nearest import nearest
from builder.words import doubt

if TYPE_CHECKING:
    from .site import Site


@dataclass(frozen=True, slots=True)
class Error:
    """A number whose error could turn the decision."""

    said: str
    origin: str
    """The error of one reading, and that it is assumed or whence it comes."""
    source: str | None
    """The published source that `origin` leads to."""
    one_more: str
    """What one more trial would do; empty where that does not shrink the error."""


@dataclass(frozen=True, slots=True)
class Sure:
    said: str
    near: bool
    """Whether the key is too unsure for a marked quiz."""
    errors: tuple[Error, ...]
    """The nearest to a line first."""
    changes: tuple[str, ...]
    """Readings that would have led elsewhere, the cheapest first."""


def sure_of(site: Site, case: Case, table: str) -> Sure | None:
    """None where the table decides nothing about the client, or nothing can be known about it."""
    outcome = site.explanation(case, table).decision.outcome
    if outcome is None or table not in site.space.tables:
        return None
    changes = tuple(_changes(site, case, table))
    now = chance(site.space, case.readings, table)
    if now.undecided == 1:
        return Sure(doubt.unknown(site.words), False, (), changes)
    names = dict.fromkeys(line.measure for line in lines(site.space, case.readings, table))
    if not names:
        return Sure(doubt.certain(site.words), False, (), changes)
    errors = tuple(_error(site, case, table, outcome, name) for name in names)
    sure = now.chance[outcome]
    return Sure(doubt.sure(site.words, sure), sure < SURE_ENOUGH, errors, changes)


def _error(site: Site, case: Case, table: str, outcome: str, name: str) -> Error:
    words, measure = site.words, site.course.measures[name]
    scale, trials = measure.scale, len(case.readings[name].trials)
    assert isinstance(scale, NumberScale)
    one_more = ""
    if scale.sem_of == "trial":
        then = chance(site.space, case.readings, table, {name: 1}).chance[outcome]
        one_more = doubt.one_more(words, scale, standard_error(scale, trials + 1), then)
    assumed = doubt.assumed(words, scale)
    return Error(
        doubt.error(words, measure, trials, standard_error(scale, trials)),
        assumed or doubt.published(words, scale),
        None if assumed else scale.sem_source,
        one_more,
    )


def _changes(site: Site, case: Case, table: str) -> Iterator[str]:
    found = nearest(site.space, case.readings, table)
    for outcome, group in groupby(found, key=lambda one: one.outcome):
        for ways in doubt.together(one.change for one in group):
            yield doubt.change(site.words, site.course, table, outcome, ways)
