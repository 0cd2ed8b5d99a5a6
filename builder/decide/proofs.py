"""What the rules do to every client who can exist: whom they forget, decide twice, or would endanger.

Definitions are those of the course format, "What is proved". A finding names one such client, who can arise
with the outcomes that earlier tables really give; a combination that cannot arise is never found.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from itertools import combinations

from builder.course import SENDS_ON, AskStep, Caution, DecideStep, EndStep, Exercise, Table

from .budget import Budget, Unfinished
from .diagram import NO, YES
from .grid import Client
from .product_search import Factor, ProductSearch
from .regions import Region, region
from .searches import asked, demanded, feeding, someone
from .space import Space

_IN = 1 << ~YES
"""The bit set of the result of those who are in a set."""


@dataclass(frozen=True, slots=True)
class Finding:
    """A fault that is there for some client, or a proof that could not be finished."""

    code: str
    """The code of the problem: `table-gap`, `table-overlap`, `rule-unreachable`, `caution-breach`,
    `referral-leak`, `referral-unproved` or `proof-unfinished`."""
    table: str | None = None
    rules: tuple[int, ...] = ()
    """Places in the table's rules: the two that overlap, the upper first, or the one that decides nobody."""
    caution: str | None = None
    exercise: str | None = None
    step: str | None = None
    """For a leak: the step at which the exercise can end."""
    outcomes: tuple[str, ...] = ()
    """For a breach: the outcomes that the caution leaves out and someone comes to."""
    client: Client | None = None
    """One who shows the fault."""
    region: Region | None = None
    """All who show it; None where finding them all took too long."""


def prove(space: Space) -> tuple[Finding, ...]:
    """Every finding about every well-formed table, caution and exercise, in that order and by pathway, then
    name.

    All searches about one table, caution or exercise may take `space.steps` steps of work; what is past that
    is reported as unfinished, the same on every machine.
    """
    proof = _Proof(space)
    return (*proof.tables(), *proof.cautions(), *proof.exercises())


class _Proof:
    def __init__(self, space: Space) -> None:
        self.space = space
        self.diagrams = space.diagrams
        self._regions = Budget(space.steps // 8)
        """For all regions together."""

    def tables(self) -> Iterator[Finding]:
        for name, table in self.space.tables.items():
            try:
                yield from self._table(table)
            except Unfinished:
                yield Finding("proof-unfinished", table=name)

    def cautions(self) -> Iterator[Finding]:
        for name, caution in self.space.cautions.items():
            try:
                yield from self._breaches(caution)
            except Unfinished:
                yield Finding("proof-unfinished", caution=name)
        for name, caution in sorted(self.space.course.cautions.items()):
            if caution.level in SENDS_ON and not any(caution.demands.values()):
                yield Finding("referral-unproved", caution=name)

    def exercises(self) -> Iterator[Finding]:
        for name, exercise in sorted(self.space.course.exercises.items()):
            try:
                yield from self._leaks(exercise)
            except Unfinished:
                yield Finding("proof-unfinished", exercise=name)

    def _table(self, table: Table) -> Iterator[Finding]:
        budget = self._budget()
        local = self.space.local(table.name)
        everyone = [*feeding(self.space, (table.name,)), Factor(local.rules)]
        boxes = [self.space.box(rule.when) for rule in table.rules]
        found = ProductSearch(self.diagrams, everyone, budget).first(1 << local.gap)
        if local.gap in found:
            gap = self.diagrams.those(local.rules, 1 << local.gap, self._budget())
            yield Finding(
                "table-gap",
                table=table.name,
                client=self.space.client(found[local.gap]),
                region=self._region(partial(self._composed, [*everyone[:-1], Factor(gap)])),
            )
        if table.policy == "unique":
            yield from self._overlaps(table, boxes, budget)
        for number, box in enumerate(boxes):
            if table.policy == "unique":
                counts = someone(self.space, table.name, box, budget) is not None
            else:
                measured = self.space.measures_in(box)
                counts = number in ProductSearch(self.diagrams, everyone, budget).first(1 << number, measured)
            if not counts:
                yield Finding("rule-unreachable", table=table.name, rules=(number,))

    def _overlaps(self, table: Table, boxes: list[dict[int, int]], budget: Budget) -> Iterator[Finding]:
        for (upper, one), (later, other) in combinations(enumerate(boxes), 2):
            box = {level: one.get(level, -1) & other.get(level, -1) for level in one.keys() | other.keys()}
            client = someone(self.space, table.name, box, budget)
            if client is not None:
                everyone = partial(self._all_in_box, table, box)
                yield Finding(
                    "table-overlap",
                    table=table.name,
                    rules=(upper, later),
                    client=client,
                    region=self._region(everyone),
                )

    def _all_in_box(self, table: Table, box: Mapping[int, int], budget: Budget) -> int:
        """The set of all who reach a table within a box over its inputs."""
        found = self.diagrams.box(self.space.measures_in(box), self.space.widths)
        for feed, wanted in self.space.outcomes_in(table.name, box).items():
            those = self.diagrams.those(self.space.outcome(feed), wanted, budget)
            found = self.diagrams.both(found, those, budget)
        return found

    def _breaches(self, caution: Caution) -> Iterator[Finding]:
        for table, allowed in sorted(caution.demands.items()):
            outcomes = list(self.space.tables[table].outcomes) if table in self.space.tables else []
            if not outcomes or not set(allowed) <= set(outcomes):
                continue
            bad = sum(1 << number for number, name in enumerate(outcomes) if name not in allowed)
            meets = self.space.caution(caution.name)
            *before, last = asked(self.space, table)
            parts = [*before, Factor(meets, wanted=_IN), last]
            found = ProductSearch(self.diagrams, parts, self._budget()).first(bad)
            if found:
                yield Finding(
                    "caution-breach",
                    table=table,
                    caution=caution.name,
                    outcomes=tuple(outcomes[number] for number in sorted(found)),
                    client=self.space.client(found[min(found)]),
                    region=self._region(partial(self._any_with, caution.name, [{table: bad}])),
                )

    def _leaks(self, exercise: Exercise) -> Iterator[Finding]:
        for name, caution in self.space.cautions.items():
            budget = self._budget()
            ends = self._ends(exercise, name, budget) if caution.level in SENDS_ON else iter(())
            leak = next(ends, None)
            if leak is None:
                continue
            step, keys, client = leak
            # One leak is a finding; the others only tell who else, and may cost no more than regions do.
            budget.left = min(budget.left, self._regions.left)
            try:
                every = [keys, *(others for _, others, _ in ends)]
                everyone = self._region(partial(self._any_with, name, every))
            except Unfinished:
                everyone = None
            yield Finding(
                "referral-leak",
                caution=name,
                exercise=exercise.name,
                step=step,
                client=client,
                region=everyone,
            )

    def _ends(
        self, exercise: Exercise, caution: str, budget: Budget
    ) -> Iterator[tuple[str, dict[str, int], Client]]:
        """Every step without `sends_on` at which the exercise can end for someone who meets a caution, with
        the outcomes on the way there and one such client.

        A walk is followed by the outcomes that it has come by, since these and the choices decide what is
        next. A client without an outcome at a step stays there.
        """
        waiting: list[tuple[str, dict[str, int]]] = [(exercise.start, {})]
        seen: set[tuple[str, frozenset[tuple[str, int]]]] = set()
        while waiting:
            name, keys = waiting.pop()
            mark = (name, frozenset(keys.items()))
            if mark in seen:
                continue
            seen.add(mark)
            step = exercise.steps.get(name)
            nexts: list[tuple[str, dict[str, int]]] = []
            if isinstance(step, EndStep) and not step.sends_on:
                client = self._someone(caution, keys, budget)
                if client is not None:
                    yield name, keys, client
            elif isinstance(step, AskStep):
                nexts = [(choice.go, keys) for choice in step.choices]
            elif isinstance(step, DecideStep) and step.table in self.space.tables:
                for number, outcome in enumerate(self.space.tables[step.table].outcomes):
                    wanted = 1 << number
                    further = keys | {step.table: wanted}
                    if (
                        outcome in step.go
                        and keys.get(step.table, wanted) == wanted
                        and self._someone(caution, further, budget) is not None
                    ):
                        nexts.append((step.go[outcome], further))
            waiting += reversed(nexts)

    def _someone(self, caution: str, keys: Mapping[str, int], budget: Budget) -> Client | None:
        """Someone who meets a caution and has these outcomes."""
        meets = Factor(self.space.caution(caution), wanted=_IN)
        parts = [*demanded(self.space, keys), meets, Factor(YES)]
        found = ProductSearch(self.diagrams, parts, budget).first(_IN)
        return self.space.client(found[~YES]) if found else None

    def _all_with(self, caution: str, keys: Mapping[str, int], budget: Budget) -> int:
        """The set of all who meet a caution and have these outcomes."""
        found = self.space.caution(caution)
        for table, wanted in keys.items():
            those = self.diagrams.those(self.space.outcome(table), wanted, budget)
            found = self.diagrams.both(found, those, budget)
        return found

    def _any_with(self, caution: str, several: list[dict[str, int]], budget: Budget) -> int:
        found = NO
        for keys in several:
            found = self.diagrams.either(found, self._all_with(caution, keys, budget), budget)
        return found

    def _region(self, everyone: Callable[[Budget], int]) -> Region | None:
        """The clients of a set in boxes, or None where that takes too long: a finding stands without it."""
        try:
            return region(self.space, everyone(self._regions), self._regions)
        except Unfinished:
            return None

    def _composed(self, parts: list[Factor], budget: Budget) -> int:
        return ProductSearch(self.diagrams, parts, budget).composed()

    def _budget(self) -> Budget:
        return Budget(self.space.steps)
