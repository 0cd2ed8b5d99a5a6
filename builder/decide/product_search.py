"""Several diagrams walked side by side: tables over the tables that feed them, and what must hold besides.

Nothing here builds the diagram of a whole pathway unless `composed` is asked for it. A search looks at each
state (what is left to ask in every part) once at most, and leaves it as soon as nothing new can come of it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from .budget import Budget
from .diagram import Diagrams

_END = 1 << 30
"""A level below all."""

_HOLDS = -_END
"""Stands for a part of which nothing more is to be known."""

State = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Factor:
    """One diagram, which either feeds later parts or must have some result."""

    diagram: int
    slot: int | None = None
    """The level that stands for its result in the parts that come after it; None where it feeds none."""
    wanted: int | None = None
    """The bit set of the results that it must have; None where any will do."""


class ProductSearch:
    """Parts, each after those that feed it. The last one is the one that is asked about."""

    def __init__(self, diagrams: Diagrams, parts: Sequence[Factor], budget: Budget) -> None:
        self._diagrams = diagrams
        self._budget = budget
        self._parts = parts
        self._cost = (len(parts) + 1) // 2
        """Steps of work that one state takes: about in proportion to its parts, and one for a table and its
        feed."""
        place = {part.slot: n for n, part in enumerate(parts) if part.slot is not None}
        self._feeds: list[tuple[int, list[tuple[int, int, int]]]] = []
        """For each part that is fed: the levels that stand for other parts, where these are, and all their
        results."""
        for n, part in enumerate(parts):
            slots = [level for level in diagrams.levels(part.diagram) if level in place]
            feeds = [(level, place[level], diagrams.results(parts[place[level]].diagram)) for level in slots]
            if feeds:
                self._feeds.append((n, feeds))
        self._feeding = [
            (n, part.slot) for n, part in reversed(list(enumerate(parts))) if part.slot is not None
        ]
        self._demands = [(n, part.wanted) for n, part in enumerate(parts) if part.wanted is not None]
        self._asking = [n for n, part in enumerate(parts) if part.slot is None]

    @property
    def start(self) -> State:
        state = self._settled([part.diagram for part in self._parts], is_start=True)
        if state is None:
            raise ValueError("a part cannot be as it must")
        return state

    def result(self, state: State) -> int | None:
        return ~state[-1] if state[-1] < 0 else None

    def level(self, state: State) -> int:
        levels = self._diagrams.level
        return min([levels[part] if part >= 0 else _END for part in state])

    def nexts(self, state: State) -> list[State]:
        """The next state for each cell. Raises Unfinished."""
        self._budget.spend(self._cost)
        return [following for following in self._steps(state, self.level(state), -1) if following is not None]

    def composed(self) -> int:
        """The diagram of the last part over measures alone. No other part may be
        one that must have a result. Raises Unfinished."""
        done: dict[State, int] = {}
        node = self._diagrams.node

        def compose(state: State) -> int:
            top = state[-1]
            if top < 0:
                return top
            found = done.get(state)
            if found is None:
                kids = tuple([compose(following) for following in self.nexts(state)])
                done[state] = found = node(self.level(state), kids)
            return found

        return compose(self.start)

    def first(self, wanted: int, box: Mapping[int, int] | None = None) -> dict[int, dict[int, int]]:
        """For each wanted result of the last part that arises in the box, while every other part is as it
        must be: the cells of one such client by level. Levels that are left out may take any cell of the box.
        Raises Unfinished.
        """
        box = box or {}
        seen: set[State] = set()
        found: dict[int, dict[int, int]] = {}
        path: dict[int, int] = {}
        spend, results = self._budget.spend, self._diagrams.results
        demands = [n for n, _ in self._demands]

        def look(state: State) -> None:
            nonlocal wanted
            top = state[-1]
            if not results(top) & wanted or state in seen:
                return
            if top < 0 and all(state[n] == _HOLDS for n in demands):
                wanted &= ~results(top)
                found[~top] = dict(path)
                return
            seen.add(state)
            spend(self._cost)
            level = self.level(state)
            for cell, following in enumerate(self._steps(state, level, box.get(level, -1))):
                if following is not None:
                    path[level] = cell
                    look(following)
                    if not results(top) & wanted:
                        break
            path.pop(level, None)

        start = self._settled([part.diagram for part in self._parts], is_start=True)
        if start is not None and all(box.values()):
            look(start)
        return found

    def _steps(self, state: State, level: int, cells: int) -> list[State | None]:
        """The state for each cell of the level that is asked; None where a part cannot be as it must, or the
        cell is not among `cells`."""
        levels, all_kids = self._diagrams.level, self._diagrams.kids
        moving = [(n, all_kids[part]) for n, part in enumerate(state) if part >= 0 and levels[part] == level]
        settled: dict[State, State | None] = {}
        nexts: list[State | None] = []
        row = list(state)
        for cell in range(len(moving[0][1])):
            if not cells >> cell & 1:
                nexts.append(None)
                continue
            for n, kids in moving:
                row[n] = kids[cell]
            raw = tuple(row)
            if raw in settled:
                nexts.append(settled[raw])
            else:
                following = self._settled(row)
                settled[raw] = following
                nexts.append(following)
        return nexts

    def _settled(self, row: Sequence[int], is_start: bool = False) -> State | None:
        """The state with all put in that is known of the feeding parts, and without parts that no longer
        matter. None where a part cannot be as it must."""
        diagrams = self._diagrams
        ends, asks = diagrams.ends, diagrams.asks
        state = list(row)
        for n, feeds in self._feeds:
            part = state[n]
            for slot, feed, every in feeds:
                if part < 0:
                    break
                if asks[part] >> slot & 1:
                    other = state[feed]
                    has = 1 << ~other if other < 0 else ends[other]
                    # What the start already rules out is ruled out of every later state.
                    if has != every or is_start:
                        part = diagrams.limited(part, slot, has)
            state[n] = part
        for n, wanted in self._demands:
            part = state[n]
            if part != _HOLDS:
                has = 1 << ~part if part < 0 else ends[part]
                if not has & wanted:
                    return None
                if not has & ~wanted:
                    state[n] = _HOLDS
        if self._feeding:
            needed = 0
            for n in self._asking:
                if state[n] >= 0:
                    needed |= asks[state[n]]
            for n, slot in self._feeding:
                if not needed >> slot & 1:
                    state[n] = _HOLDS
                elif state[n] >= 0:
                    needed |= asks[state[n]]
        return tuple(state)
