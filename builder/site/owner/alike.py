"""Whether the coaches decide alike: who chose what about which client, and what may have misled them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from builder.answers import Answers
from builder.answers.sentences import sure_of
from builder.course import Table
from builder.decide.nearest import grouped
from builder.records import Facts
from builder.records.team import Decided
from builder.statistics import coefficient, over_clients, pairs, share_alike
from builder.words import doubt, sentences

from .drawn import count_bar
from .things import Named, Things

FEWEST_COACHES = 5
FEWEST_CLIENTS = 10
"""Below either no coefficient is shown: our own choice, since it would say next to nothing."""


@dataclass(frozen=True, slots=True)
class Chosen:
    label: str
    right: bool
    unsafe: bool
    """Whether acting on it is serious."""
    coaches: tuple[int, ...]
    """Their places."""
    drawn: Markup


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure of agreement with its 95 % interval, None where it cannot be told."""

    value: float
    interval: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class OfClient:
    client: Named
    chosen: tuple[Chosen, ...]
    """The right answer first, then what most chose."""
    pairs: tuple[int, int]
    """Of all pairs of coaches, how many chose alike, and how many there are."""
    misleads: tuple[str, ...]
    """Where coaches part: what other readings would have led to what some of them chose."""
    unsure: str
    """How sure the right answer is, where that is not sure enough; else empty."""

    @property
    def coaches(self) -> int:
        return sum(len(one.coaches) for one in self.chosen)


@dataclass(frozen=True, slots=True)
class OfTable:
    title: str
    question: str
    parted: tuple[OfClient, ...]
    """Clients about whom coaches part, those of most different minds first."""
    agreed: tuple[OfClient, ...]
    """Clients about whom two coaches or more all chose alike."""
    coaches: int
    pairs: tuple[int, int]
    right: tuple[int, int]
    share: Figure | None
    """The share of pairs that chose alike, by client and on the mean; None where there are few."""
    beyond: Figure | None
    """Agreement beyond chance; None for too few coaches or clients, or where everybody always chose alike."""
    is_few: bool


def alike(answers: Answers, facts: Facts, decided: Sequence[Decided], things: Things) -> tuple[OfTable, ...]:
    """In the order in which the course decides."""
    found: dict[str, list[Decided]] = defaultdict(list)
    for one in decided:
        found[one.table].append(one)
    order = [*answers.order, *(name for name in found if name not in answers.order)]
    tables = (answers.course.tables[name] for name in order if name in found)
    return tuple(_of_table(answers, facts, things, table, found[table.name]) for table in tables)


def _of_table(answers: Answers, facts: Facts, things: Things, table: Table, found: list[Decided]) -> OfTable:
    told = [(one, _of_client(answers, facts, things, table, one)) for one in found]
    several = [(one, of) for one, of in told if one.coaches > 1]
    parted = [(one, of) for one, of in several if len(one.chosen) > 1]
    parted.sort(key=lambda one: (one[1].pairs[0] / one[1].pairs[1], -one[0].coaches, one[0].client))
    coaches = {place for one in found for places in one.chosen.values() for place in places}
    rows = [[len(one.chosen.get(outcome, ())) for outcome in table.outcomes] for one, _ in several]
    alike_pairs, all_pairs = (sum(each) for each in zip((0, 0), *map(pairs, rows), strict=True))
    right = sum(len(chosen.coaches) for _, of in told for chosen in of.chosen if chosen.right)
    is_few = len(coaches) < FEWEST_COACHES or len(rows) < FEWEST_CLIENTS
    beyond = None if is_few else coefficient(rows)
    return OfTable(
        sentences.table_label(table),
        table.question,
        tuple(of for _, of in parted),
        tuple(of for one, of in several if len(one.chosen) == 1),
        len(coaches),
        (alike_pairs, all_pairs),
        (right, sum(one.coaches for one in found)),
        None if is_few else Figure(share_alike(rows), over_clients(rows, share_alike, 0.0)),
        None if beyond is None else Figure(beyond, over_clients(rows, coefficient)),
        is_few,
    )


def _of_client(answers: Answers, facts: Facts, things: Things, table: Table, one: Decided) -> OfClient:
    key = facts.outcomes(one.client).get(table.name)
    order = sorted(one.chosen, key=lambda outcome: (outcome != key, -len(one.chosen[outcome]), outcome))
    client = answers.client(one.client)
    acted = client.acted_on[table.name] if client else {}
    chosen = tuple(
        Chosen(
            sentences.outcome_label(answers.course, table.name, outcome),
            outcome == key,
            outcome in acted and acted[outcome].told == "serious",
            one.chosen[outcome],
            count_bar(len(one.chosen[outcome]), one.coaches, outcome == key),
        )
        for outcome in order
    )
    parted = len(one.chosen) > 1
    sure = sure_of(answers, client.case, table.name) if client and parted else None
    return OfClient(
        things.client(one.client),
        chosen,
        pairs([len(places) for places in one.chosen.values()]),
        tuple(_misleads(answers, table.name, one.client, order)) if parted else (),
        sure.said if sure and sure.near else "",
    )


_WAYS = 2
"""Other readings named for each wrong answer."""


def _misleads(answers: Answers, table: str, client: str, chosen: Sequence[str]) -> Iterator[str]:
    known = answers.client(client)
    if table not in answers.space.tables or known is None:
        return
    ways = grouped(known.nearest[table])
    for outcome in chosen:
        leading = [one for one in ways if one.outcome == outcome][:_WAYS]
        for one in leading:
            yield doubt.change(answers.words, answers.course, table, outcome, one.instead, most=2)
