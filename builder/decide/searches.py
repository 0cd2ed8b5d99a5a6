"""What is asked of a space: tables with all that feeds them, as parts of one search, or for one client."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from . import grid
from .budget import Budget, Unfinished
from .diagram import YES
from .product_search import Factor, ProductSearch
from .space import Space
from .traversal import DiagramTraversal, Traversal


def feeding(space: Space, tables: Iterable[str]) -> list[Factor]:
    """What stands before some tables in a `ProductSearch`: the tables that feed them, each as its outcome for
    every client where that could be made, else over what feeds it in turn. Raises Unfinished."""
    parts: dict[str, Factor] = {}
    waiting = [feed for table in tables for feed in space.feeds(table)]
    while waiting:
        feed = waiting.pop()
        if feed not in parts:
            try:
                parts[feed] = Factor(space.outcome(feed), space.slots[feed])
            except Unfinished:
                parts[feed] = Factor(space.local(feed).outcomes, space.slots[feed])
                waiting += space.feeds(feed)
    return [parts[name] for name in space.tables if name in parts]


def asked(space: Space, table: str) -> list[Factor]:
    """A table's outcome as the last factor of a search, with all that feeds it. Raises Unfinished."""
    try:
        return [Factor(space.outcome(table))]
    except Unfinished:
        return [*feeding(space, (table,)), Factor(space.local(table).outcomes)]


def demanded(space: Space, outcomes: Mapping[str, int]) -> list[Factor]:
    """Tables that must have one of some outcomes, given as bit sets, as factors of a search, with all that
    feeds them. Raises Unfinished."""
    parts: list[Factor] = []
    for table, wanted in outcomes.items():
        *before, last = asked(space, table)
        parts += [part for part in before if part not in parts]
        parts.append(Factor(last.diagram, wanted=wanted))
    return parts


def someone(space: Space, table: str, box: Mapping[int, int], budget: Budget) -> grid.Client | None:
    """Someone who reaches a table within a box over its inputs. Raises Unfinished."""
    if not all(box.values()):
        return None
    measured = space.measures_in(box)
    parts = [*demanded(space, space.outcomes_in(table, box)), Factor(YES)]
    found = ProductSearch(space.diagrams, parts, budget).first(1 << ~YES, measured)
    if not found:
        return None
    lowest = {level: (cells & -cells).bit_length() - 1 for level, cells in measured.items()}
    return space.client(lowest | found[~YES])


def deciding(space: Space, table: str) -> Traversal[Any]:
    """A table's outcome, to be followed for one client; results as in `Space.outcome`. Since it will be asked
    for many clients, more work is allowed for its diagram. Raises Unfinished."""
    try:
        return DiagramTraversal(space.diagrams, space.outcome(table))
    except Unfinished:
        pass
    try:
        return DiagramTraversal(space.diagrams, space.larger_outcome(table))
    except Unfinished:
        return ProductSearch(space.diagrams, asked(space, table), Budget(space.steps // 8))


def meeting(space: Space, caution: str) -> Traversal[Any]:
    """Whether one client meets a caution, to be followed: 1 or 0. Raises Unfinished."""
    return DiagramTraversal(space.diagrams, space.caution(caution))
