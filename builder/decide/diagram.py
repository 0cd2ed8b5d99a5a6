"""Ordered decision diagrams with many values a variable: functions over all clients, each kept once.

A diagram is a number. Below zero it is a result: `~value` for a value from 0 up. Otherwise it is a node that
asks for the cell of one variable and has one diagram for each. Variables are asked in the order of their
levels. Equal diagrams have equal numbers, and no node asks what makes no difference (reduced and ordered,
after Bryant 1986, IEEE Trans Comput C-35:677-691, with many-valued variables after Srinivasan et al. 1990,
ICCAD, 92-95).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from .budget import Budget

NO, YES = ~0, ~1
"""Results of diagrams that stand for sets of clients."""


class Diagrams:
    """All nodes of one course. Not safe for use by several threads."""

    def __init__(self) -> None:
        self.level: list[int] = []
        self.kids: list[tuple[int, ...]] = []
        self.ends: list[int] = []
        """For each node, the bit set of its results."""
        self.asks: list[int] = []
        """For each node, the bit set of the levels that it depends on."""
        self._known: dict[tuple[int, tuple[int, ...]], int] = {}
        self._limited: dict[tuple[int, int, int], int] = {}

    def node(self, level: int, kids: tuple[int, ...]) -> int:
        """The diagram that asks for `level` and goes on with `kids`, one for each cell."""
        first = kids[0]
        if kids.count(first) == len(kids):
            return first
        key = (level, kids)
        known = self._known.get(key)
        if known is not None:
            return known
        ends, asks = 0, 1 << level
        for kid in kids:
            if kid < 0:
                ends |= 1 << ~kid
            else:
                ends |= self.ends[kid]
                asks |= self.asks[kid]
        self._known[key] = number = len(self.level)
        self.level.append(level)
        self.kids.append(kids)
        self.ends.append(ends)
        self.asks.append(asks)
        return number

    def results(self, diagram: int) -> int:
        """The bit set of the results that a diagram has."""
        return 1 << ~diagram if diagram < 0 else self.ends[diagram]

    def levels(self, diagram: int) -> tuple[int, ...]:
        """The levels that a diagram depends on, in order."""
        asks = 0 if diagram < 0 else self.asks[diagram]
        return tuple(level for level in range(asks.bit_length()) if asks >> level & 1)

    def at(self, diagram: int, cells: Sequence[int]) -> int:
        """The result for the client who is in these cells, by level."""
        while diagram >= 0:
            diagram = self.kids[diagram][cells[self.level[diagram]]]
        return ~diagram

    def box(self, box: Mapping[int, int], widths: Mapping[int, int]) -> int:
        """The set of all clients in a box, which maps levels to bit sets of their cells; levels that it does
        not name are free. `widths` counts the cells of each level."""
        diagram = YES
        for level in sorted(box, reverse=True):
            cells = box[level]
            diagram = self.node(level, tuple(diagram if cells >> c & 1 else NO for c in range(widths[level])))
        return diagram

    def renamed(self, diagram: int, results: Callable[[int], int], budget: Budget) -> int:
        """The same diagram with every result replaced."""
        done: dict[int, int] = {}

        def rename(this: int) -> int:
            found = done.get(this)
            if found is None:
                if this < 0:
                    found = ~results(~this)
                else:
                    budget.spend()
                    found = self.node(self.level[this], tuple([rename(kid) for kid in self.kids[this]]))
                done[this] = found
            return found

        return rename(diagram)

    def those(self, diagram: int, wanted: int, budget: Budget) -> int:
        """The set of clients for whom a diagram has one of some results, given as a bit set."""
        return self.renamed(diagram, lambda result: wanted >> result & 1, budget)

    def both(self, one: int, other: int, budget: Budget) -> int:
        """The clients in both sets."""
        return self._joined(one, other, NO, YES, {}, budget)

    def either(self, one: int, other: int, budget: Budget) -> int:
        """The clients in at least one of two sets."""
        return self._joined(one, other, YES, NO, {}, budget)

    def without(self, one: int, other: int, budget: Budget) -> int:
        """The clients in the first set and not in the other."""
        return self.both(one, self.renamed(other, lambda result: 1 - result, budget), budget)

    def _joined(
        self, one: int, other: int, strong: int, weak: int, done: dict[tuple[int, int], int], budget: Budget
    ) -> int:
        if one == strong or other == strong:
            return strong
        if one in (weak, other):
            return other
        if other == weak:
            return one
        key = (one, other) if one < other else (other, one)
        found = done.get(key)
        if found is None:
            budget.spend()
            level = min(self.level[one], self.level[other])
            ones = self._split(one, level, 1)
            others = self._split(other, level, len(ones))
            if len(ones) < len(others):
                ones = ones * len(others)
            kids = tuple(
                [self._joined(a, b, strong, weak, done, budget) for a, b in zip(ones, others, strict=True)]
            )
            done[key] = found = self.node(level, kids)
        return found

    def _split(self, diagram: int, level: int, width: int) -> tuple[int, ...]:
        return self.kids[diagram] if self.level[diagram] == level else (diagram,) * width

    def limited(self, diagram: int, level: int, cells: int) -> int:
        """The diagram where only some cells of a level can arise: the others no longer make a difference."""
        if diagram < 0 or not self.asks[diagram] >> level & 1:
            return diagram
        key = (diagram, level, cells)
        found = self._limited.get(key)
        if found is None:
            kids = self.kids[diagram]
            if self.level[diagram] == level:
                spare = kids[(cells & -cells).bit_length() - 1]
                kids = tuple([kid if cells >> c & 1 else spare for c, kid in enumerate(kids)])
            else:
                kids = tuple([self.limited(kid, level, cells) for kid in kids])
            self._limited[key] = found = self.node(self.level[diagram], kids)
        return found
