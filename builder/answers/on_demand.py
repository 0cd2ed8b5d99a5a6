"""A mapping that works out each value when it is first asked for by its key."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

K = TypeVar("K")
V = TypeVar("V")


class OnDemand(dict[K, V]):
    """To be asked by key alone: what was not asked for is not there yet."""

    def __init__(self, make: Callable[[K], V]) -> None:
        super().__init__()
        self._make = make

    def __missing__(self, key: K) -> V:
        value = self[key] = self._make(key)
        return value
