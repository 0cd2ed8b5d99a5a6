"""A set of clients as a few boxes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from .budget import Budget
from .cells import Cell
from .diagram import NO
from .space import Space

_BOXES = 4
"""How many boxes are said at most."""

Ranges = Mapping[str, tuple[range, ...]]
"""For each measure that matters, the runs of indexes that it may take."""


@dataclass(frozen=True, slots=True)
class Region:
    """A set of clients: everyone in one of the boxes, and others where `more` is set."""

    boxes: tuple[Ranges, ...]
    more: bool


def region(space: Space, clients: int, budget: Budget) -> Region:
    """A set of clients as boxes, grown greedily: from one client that no box holds yet, first every measure
    is freed that can be, then each cell is added that can be, measure by measure. Raises Unfinished."""
    boxes: list[dict[int, int]] = []
    left = clients
    while left != NO and len(boxes) < _BOXES:
        box = _grown(space, clients, _one(space, left), budget)
        boxes.append(box)
        left = space.diagrams.without(left, space.diagrams.box(box, space.widths), budget)
    return Region(tuple(_ranges(space, box) for box in boxes), left != NO)


def _one(space: Space, clients: int) -> dict[int, int]:
    """The box of the first path that leads into a set."""
    diagrams, box = space.diagrams, {}
    while clients >= 0:
        cell, kid = next((n, kid) for n, kid in enumerate(diagrams.kids[clients]) if kid != NO)
        box[diagrams.level[clients]] = 1 << cell
        clients = kid
    return box


def _grown(space: Space, clients: int, box: dict[int, int], budget: Budget) -> dict[int, int]:
    for level in list(box):
        if _inside(space, clients, {**box, level: -1}, budget):
            del box[level]
    for level in list(box):
        for cell in range(space.widths[level]):
            wider = {**box, level: box[level] | 1 << cell}
            if wider != box and _inside(space, clients, wider, budget):
                box = wider
    return box


def _inside(space: Space, clients: int, box: Mapping[int, int], budget: Budget) -> bool:
    """Whether all of a box lies in a set."""
    diagrams = space.diagrams
    seen: set[int] = set()
    waiting = [clients]
    while waiting:
        this = waiting.pop()
        if this == NO:
            return False
        if this >= 0 and this not in seen:
            seen.add(this)
            budget.spend()
            cells = box.get(diagrams.level[this], -1)
            waiting += [kid for cell, kid in enumerate(diagrams.kids[this]) if cells >> cell & 1]
    return True


def _ranges(space: Space, box: Mapping[int, int]) -> Ranges:
    bits = {name: box[level] for name, level in space.levels.items() if level in box}
    return {
        name: tuple(_runs(cell for n, cell in enumerate(space.axes[name].cells) if bits[name] >> n & 1))
        for name in space.course.measures
        if name in bits
    }


def _runs(cells: Iterable[Cell]) -> Iterator[range]:
    """Cells joined where they touch."""
    pieces = []
    for cell in cells:
        pieces += [cell] if isinstance(cell, range) else [range(i, i + 1) for i in cell]
    pieces.sort(key=lambda piece: piece.start)
    run = pieces[0]
    for piece in pieces[1:]:
        if piece.start == run.stop:
            run = range(run.start, piece.stop)
        else:
            yield run
            run = piece
    yield run
