"""Which of several sets of conditions counts, as a diagram over what they read."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from .budget import Budget
from .diagram import Diagrams


def matching(
    diagrams: Diagrams,
    boxes: Sequence[Mapping[int, int]],
    measured: Mapping[int, int],
    fed: Mapping[int, int],
    policy: str,
    budget: Budget,
) -> int:
    """Which of some boxes counts. `measured` tells how many cells each level has that stands for a measure,
    `fed` how many outcomes each that stands for a table; the latter lie below the former.

    Results: its number; the count of boxes where none holds; one more where several do and the policy is
    `unique`; two more where one of the tables has no outcome. Raises Unfinished.

    Goes through the inputs one by one with the bit set of those that may still hold. A state is left early
    once what is still open can no longer change the result, so that few states differ.
    """
    gap, overlap, not_reached = ~len(boxes), ~(len(boxes) + 1), ~(len(boxes) + 2)
    levels = [*sorted(measured), *sorted(fed)]
    widths = [*(measured[level] for level in sorted(measured)), *(fed[level] for level in sorted(fed))]
    admit = [
        [_bits(box.get(level, -1) >> cell & 1 for box in boxes) for cell in range(width)]
        for level, width in zip(levels, widths, strict=True)
    ]
    settled = [
        _bits(all(level not in box for level in levels[place:]) for box in boxes)
        for place in range(len(levels) + 1)
    ]
    node = diagrams.node
    done: dict[tuple[int, int], int] = {}

    def sure(place: int, result: int) -> int:
        for n in range(len(levels) - 1, max(place, len(measured)) - 1, -1):
            result = node(levels[n], (result,) * widths[n] + (not_reached,))
        return result

    def match(place: int, alive: int) -> int:
        hold = alive & settled[place]
        top = hold & -hold
        if policy == "first" and top:
            alive &= (top << 1) - 1
        elif hold != top:
            return sure(place, overlap)
        if not alive:
            return sure(place, gap)
        if alive == top:
            return sure(place, ~(top.bit_length() - 1))
        found = done.get((place, alive))
        if found is None:
            budget.spend()
            kids = [match(place + 1, alive & some) for some in admit[place]]
            if place >= len(measured):
                kids.append(not_reached)
            done[place, alive] = found = node(levels[place], tuple(kids))
        return found

    return match(0, (1 << len(boxes)) - 1)


def _bits(flags: Iterable[bool | int]) -> int:
    return sum(1 << number for number, flag in enumerate(flags) if flag)
