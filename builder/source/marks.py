"""The places of the nodes of one file, worked out when first asked for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.course import Path

from .yaml_tree import TOP, Spot, parse


class Marks(Mapping[Path, tuple[int, int]]):
    """Path to line and column, both from 1.

    Most files are never asked about, so a file that came from the cache is read again only when one is.
    """

    __slots__ = ("_spot", "_text")

    def __init__(self, text: str, spot: Spot | None = None) -> None:
        self._text = text
        self._spot = spot

    def spot(self, path: Path) -> Spot:
        """The spot at a path. Raises KeyError where there is none."""
        if self._spot is None:
            self._spot = parse(self._text).spot
        spot = self._spot
        for key in path:
            parts = spot.parts
            try:
                spot = parts[key]  # type: ignore[index]
            except (IndexError, TypeError):
                raise KeyError(path) from None
        return spot

    def __getitem__(self, path: Path) -> tuple[int, int]:
        spot = self.spot(path)
        return spot.line, spot.column

    def __iter__(self) -> Iterator[Path]:
        self.spot(())
        return _walk((), self._spot or TOP)

    def __len__(self) -> int:
        return sum(1 for _ in self)


def _walk(path: Path, spot: Spot) -> Iterator[Path]:
    yield path
    parts = spot.parts
    entries = parts.items() if isinstance(parts, dict) else enumerate(parts or ())
    for key, part in entries:
        yield from _walk((*path, key), part)
