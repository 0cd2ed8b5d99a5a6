"""How sure a client's decision is, and what would have changed it, in the words of pages and of `explain`.

Only for someone who has the answer.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from builder.course import NumberScale
from builder.words import Words
from builder.words import doubt as say

from .doubt import chance, is_sure_enough, lines, standard_error
from .findings import Findings
from .nearest import nearest
from .space import Space

_AT_ONCE = 2
"""Values that the short form names."""


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
    first: str
    """The first of them in short; empty where there is none."""


def sure_of(words: Words, space: Space, found: Findings, table: str, outcome: str) -> Sure | None:
    """How sure a table's `outcome` for a client is; None where the table is not well-formed."""
    if table not in space.tables:
        return None
    ways = list(_ways(space, found, table))
    changes = tuple(say.change(words, space.course, table, *way) for way in ways)
    first = say.change(words, space.course, table, *ways[0], most=_AT_ONCE) if ways else ""
    now = chance(space, found, table)
    if now.undecided == 1:
        return Sure(say.unknown(words), False, (), changes, first)
    names = dict.fromkeys(line.measure for line in lines(space, found, table))
    if not names:
        return Sure(say.certain(words), False, (), changes, first)
    errors = tuple(_error(words, space, found, table, outcome, name) for name in names)
    sure = now.chance[outcome]
    return Sure(say.sure(words, sure), not is_sure_enough(sure), errors, changes, first)


def _error(words: Words, space: Space, found: Findings, table: str, outcome: str, name: str) -> Error:
    measure = space.course.measures[name]
    scale, trials = measure.scale, found.recorded[name].trials
    assert isinstance(scale, NumberScale)
    one_more = ""
    if scale.sem_of == "trial":
        then = chance(space, found, table, {name: 1}).chance[outcome]
        one_more = say.one_more(words, scale, standard_error(scale, trials + 1), then)
    assumed = say.assumed(words, scale)
    return Error(
        say.error(words, measure, trials, standard_error(scale, trials)),
        assumed or say.published(words, scale),
        None if assumed else scale.sem_source,
        one_more,
    )


def _ways(space: Space, found: Findings, table: str) -> Iterator[tuple[str, say.Ways]]:
    """Outcomes, and the readings that lead to each."""
    for outcome, group in groupby(nearest(space, found, table), key=lambda one: one.outcome):
        for ways in say.merged(one.change for one in group):
            yield outcome, ways
