"""A stated amount of work for one proof, counted in steps so that every machine stops at the same place."""

from __future__ import annotations


class Unfinished(Exception):
    """The work allowed was not enough."""


class Budget:
    """Work that may still be done. One step is one state of a diagram or of a search looked at."""

    __slots__ = ("left",)

    def __init__(self, steps: int) -> None:
        self.left = steps

    def spend(self, steps: int = 1) -> None:
        """Raises Unfinished once nothing is left."""
        self.left -= steps
        if self.left < 0:
            raise Unfinished
