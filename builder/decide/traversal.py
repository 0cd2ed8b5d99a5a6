"""How a decision is followed cell by cell, whether its diagram over all clients could be made or not."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from typing import Generic, Protocol, TypeVar

from .diagram import Diagrams

S = TypeVar("S", bound=Hashable)


class Traversal(Protocol, Generic[S]):
    """Where one stands is a state: it has a result, or it asks for the cell of a level and has one next state
    for each. Levels are asked in order; those that are passed over make no difference."""

    @property
    def start(self) -> S: ...

    def result(self, state: S) -> int | None:
        """The result, or None while something is still asked."""

    def level(self, state: S) -> int:
        """The level that a state without a result asks."""

    def nexts(self, state: S) -> Sequence[S]:
        """The next state for each cell of that level. Raises Unfinished."""


class DiagramTraversal:
    """Down a diagram that is there."""

    def __init__(self, diagrams: Diagrams, diagram: int) -> None:
        self.start = diagram
        self._levels = diagrams.level
        self._kids = diagrams.kids

    def result(self, state: int) -> int | None:
        return ~state if state < 0 else None

    def level(self, state: int) -> int:
        return self._levels[state]

    def nexts(self, state: int) -> Sequence[int]:
        return self._kids[state]


def follow(walk: Traversal[S], cells: Mapping[int, int]) -> int:
    """The result for a client in these cells, by level. Raises Unfinished."""
    state = walk.start
    while (result := walk.result(state)) is None:
        state = walk.nexts(state)[cells[walk.level(state)]]
    return result
