"""Where something was written, so that every problem can name its line."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TypeVar

Key = str | int
Path = tuple[Key, ...]
K = TypeVar("K")
V = TypeVar("V")


def fixed(mapping: Mapping[K, V]) -> Mapping[K, V]:
    """A copy that nobody can change, as is every mapping of the model."""
    return MappingProxyType(dict(mapping))


def nothing() -> Mapping[K, V]:
    """The empty mapping."""
    return MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Place:
    """A spot in a source file; line and column count from 1."""

    file: str
    line: int = 1
    column: int = 1


@dataclass(frozen=True, slots=True)
class Origin:
    """The part of a file that one object was read from.

    `marks` holds the spot of every node of the file by its path from the top of the document. An entry of a
    mapping is placed at its value where a plain value follows on the same line, else at its key; an item of
    a list at its first character. The file is shared by all objects read from it.
    """

    file: str
    marks: Mapping[Path, tuple[int, int]] = field(default_factory=nothing, repr=False, compare=False)
    path: Path = ()

    def at(self, *keys: Key) -> Place:
        """The spot of the part under `keys`, or of the nearest part around it that has one."""
        full = self.path + keys
        while full not in self.marks:
            if not full:
                return Place(self.file)
            full = full[:-1]
        line, column = self.marks[full]
        return Place(self.file, line, column)

    def holds(self, *keys: Key) -> bool:
        """Whether something is written under `keys`."""
        return self.path + keys in self.marks

    def below(self, *keys: Key) -> Origin:
        """The origin of the part under `keys`."""
        return Origin(self.file, self.marks, self.path + keys)


NOWHERE = Origin("")
