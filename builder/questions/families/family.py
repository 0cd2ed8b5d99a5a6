"""What a family of questions is given, and what families share."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

from builder.course import Case, Caution, Course, Drill, Family, Harm, Table
from builder.decide.explain import Check, Explanation
from builder.decide.found import Found
from builder.decide.harm import ActedOn
from builder.words import Words

from ..item import Item


class AskedClient(Protocol):
    """What is known of a client whom families ask about."""

    @property
    def facts(self) -> ClientFacts:
        """What a family may need to ask about them."""

    @property
    def items(self) -> Mapping[str, Item | None]:
        """Family to its question about them; None where there is nothing to ask. To be asked by key."""

    def judged(self, means: Mapping[str, str], written: Harm) -> ActedOn:
        """A written answer: the outcomes that it comes to, and what is written of its harm."""

    @property
    def known_near(self) -> Mapping[str, bool]:
        """Well-formed table to whether the author names the number whose line is nearest."""

    def chance_of_key(self, table: str) -> float | None:
        """How sure a table's outcome is; None where that is not known."""


@dataclass(frozen=True)
class ClientFacts:
    """One client, with all that a family may need to ask about them."""

    course: Course
    case: Case
    found: Found
    found_again: Found | None
    explained: Mapping[str, Explanation]
    """By table, in pathway order."""
    met: tuple[Caution, ...]
    """The cautions that the client meets."""
    acted_on: Mapping[str, Mapping[str, ActedOn]]
    """Table to what acting on each outcome but the key would have come to."""
    words: Words
    said: Callable[[Check], str]
    """A condition of the course's rules beside what was found, in words."""

    @cached_property
    def read(self) -> list[object]:
        """The client's readings by name, as the digest of a question sees them."""
        readings = sorted(self.case.readings.items())
        return [(name, [str(trial) for trial in one.trials] or one.finding) for name, one in readings]


Writer = Callable[[Family, ClientFacts], Item | None]
"""Writes a family's question about one client; None where there is nothing to ask about them."""


DrillWriter = Callable[[Family, Course, Drill, Words], Iterator[Item]]
"""Writes a family's questions about one drill."""


def item_id(family: Family, case: Case) -> str:
    return f"{family.id}.{case.name}"


def is_sent_on_before(table: Table, about: ClientFacts) -> bool:
    """Whether an earlier table sends the client on and this one does not."""
    for name, explanation in about.explained.items():
        outcome = about.course.tables[name].outcomes.get(explanation.decision.outcome or "")
        if name == table.name:
            return False
        if outcome and outcome.ends:
            here = table.outcomes.get(about.explained[table.name].decision.outcome or "")
            return not (here and here.ends)
    return False
