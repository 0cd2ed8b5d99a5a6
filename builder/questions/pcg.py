"""Repeatable chance: the generator PCG32, the same here and in the browser's `draw.js`.

Source: M. E. O'Neill, "PCG: A Family of Simple Fast Space-Efficient Statistically Good Algorithms for Random
Number Generation", Harvey Mudd College HMC-CS-2014-0905, 2014 (variant XSH RR 64/32; seeding and bounded
numbers as in the author's minimal C implementation).
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")

_MULTIPLIER = 6364136223846793005
_64_BITS = (1 << 64) - 1
_32_BITS = (1 << 32) - 1
STREAM = 54
"""Which of the generator's sequences is used; any fixed number would do."""


class Pcg32:
    """A sequence of 32-bit numbers, settled by its seed (any whole number from 0 to 2^64 - 1)."""

    def __init__(self, seed: int, stream: int = STREAM) -> None:
        self._state = 0
        self._increment = (stream << 1 | 1) & _64_BITS
        self.next()
        self._state = (self._state + seed) & _64_BITS
        self.next()

    def next(self) -> int:
        """The next number, from 0 to 2^32 - 1."""
        old = self._state
        self._state = (old * _MULTIPLIER + self._increment) & _64_BITS
        mixed = ((old >> 18 ^ old) >> 27) & _32_BITS
        turn = old >> 59
        return (mixed >> turn | mixed << (-turn & 31)) & _32_BITS

    def below(self, bound: int) -> int:
        """A number from 0 to `bound` - 1, each equally likely; `bound` from 1 to 2^32 - 1."""
        too_low = (1 << 32) % bound
        while (number := self.next()) < too_low:
            pass
        return number % bound

    def shuffled(self, things: Sequence[T]) -> list[T]:
        """All of `things` in an order drawn by chance: Durstenfeld 1964 (Communications of the ACM 7(7):420,
        algorithm 235), from the last place down."""
        order = list(things)
        for last in range(len(order) - 1, 0, -1):
            other = self.below(last + 1)
            order[last], order[other] = order[other], order[last]
        return order


def seed_of(text: str) -> int:
    """A seed that belongs to a text: the first 64 bits of its SHA-256."""
    return int.from_bytes(hashlib.sha256(text.encode("utf-8", "surrogatepass")).digest()[:8], "big")
