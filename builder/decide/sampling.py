"""Draws clients out of a set of clients, spread over the scale of every measure.

A client is drawn by a quantile for each measure: the clients of the set are counted below every node of its
diagram, and the quantile says how far along them the value lies. So quantiles that are spread evenly give
clients that are (inverse transform; Latin hypercube sampling, McKay, Beckman and Conover 1979, Technometrics
21:239-245: the quantiles of each measure are one from each of as many equal parts as there are clients).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import takewhile
from math import prod

from .budget import Budget
from .diagram import NO
from .product_search import Factor, ProductSearch
from .searches import feeding
from .space import Space

BITS = 32
"""A quantile is a whole number from 0 to 2^BITS - 1."""


class Sampler:
    """Sets of clients of one space, and clients out of them."""

    def __init__(self, space: Space) -> None:
        self.space = space
        self._sizes = [sum(len(cell) for cell in space.axes[name].cells) for name in space.measures]
        self._counts: dict[int, int] = {}
        self._rules: dict[str, int] = {}

    def decided_by(self, table: str, rule: int) -> int:
        """The set of clients for whom the rule of this number counts. Raises Unfinished."""
        space = self.space
        if table not in self._rules:
            parts = [*feeding(space, (table,)), Factor(space.local(table).rules)]
            search = ProductSearch(space.diagrams, parts, Budget(space.steps))
            self._rules[table] = search.composed()
        return space.diagrams.those(self._rules[table], 1 << rule, Budget(space.steps))

    def going_on(self, clients: int, table: str) -> int:
        """Those of a set whom no table ahead of this one sends on. Raises Unfinished."""
        space = self.space
        for name in takewhile(lambda name: name != table, space.tables):
            outcomes = enumerate(space.tables[name].outcomes.values())
            ending = sum(1 << number for number, outcome in outcomes if outcome.ends)
            if ending:
                sent_on = space.diagrams.those(space.larger_outcome(name), ending, Budget(space.steps))
                clients = space.diagrams.without(clients, sent_on, Budget(space.steps))
        return clients

    def without(self, clients: int, cautions: Iterable[str]) -> int:
        """Those of a set who meet none of some cautions. Raises Unfinished."""
        for name in cautions:
            clients = self.space.diagrams.without(clients, self.space.caution(name), Budget(self.space.steps))
        return clients

    def client(self, clients: int, quantiles: Mapping[str, int]) -> dict[str, int]:
        """One client of a set that is not empty: the index of every measure on its domain. `quantiles` has
        one for each measure of the space."""
        diagrams, found = self.space.diagrams, {}
        for level, name in enumerate(self.space.measures):
            cells = self.space.axes[name].cells
            asked = clients >= 0 and diagrams.level[clients] == level
            kids = diagrams.kids[clients] if asked else (clients,) * len(cells)
            weights = [len(cell) * self._below(kid, level + 1) for cell, kid in zip(cells, kids, strict=True)]
            place = quantiles[name] * sum(weights) >> BITS
            number = 0
            while place >= weights[number]:
                place -= weights[number]
                number += 1
            found[name] = cells[number][place * len(cells[number]) // weights[number]]
            clients = kids[number]
        return found

    def _below(self, clients: int, level: int) -> int:
        """How many clients of a set there are, as the measures from a level on tell them apart."""
        if clients < 0:
            return 0 if clients == NO else prod(self._sizes[level:])
        at = self.space.diagrams.level[clients]
        if clients not in self._counts:
            cells = self.space.axes[self.space.measures[at]].cells
            kids = zip(cells, self.space.diagrams.kids[clients], strict=True)
            self._counts[clients] = sum(len(cell) * self._below(kid, at + 1) for cell, kid in kids)
        return prod(self._sizes[level:at]) * self._counts[clients]
