"""The sheet that a body is drawn on: parts in body coordinates, and how far they reach."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from markupsafe import Markup

from .kinematics import Point
from .outline import at, capsule, polygon, smooth
from .svg import drawing, place, text

_MARGIN = 10

THICK: dict[str, tuple[float, float]] = {
    "upper_arm": (10.5, 8.5),
    "forearm": (8.5, 6),
    "hand": (6, 4.5),
    "thigh": (19.5, 13),
    "shank": (12.5, 7.5),
    "neck": (9, 8),
}
"""Radii of limbs at their start and at their end."""


@dataclass
class Sheet:
    """Parts of a drawing in body coordinates (y upwards), and how far they reach."""

    parts: list[str] = field(default_factory=list)
    xs: list[float] = field(default_factory=list)
    ys: list[float] = field(default_factory=list)

    def reach(self, point: Point, around: float = 0) -> None:
        self.xs += [point[0] - around, point[0] + around]
        self.ys += [point[1] - around, point[1] + around]

    def path(self, css: str, way: str, points: Iterable[Point], around: float = 0) -> None:
        for point in points:
            self.reach(point, around)
        self.parts.append(f'<path class="{css}" d="{way}"/>')

    def line(self, css: str, *points: Point) -> None:
        self.path(css, "M " + " L ".join(map(at, points)), points)

    def curve(self, css: str, points: Sequence[Point]) -> None:
        self.path(css, smooth(points, closed=False), points)

    def shape(self, css: str, points: Sequence[Point]) -> None:
        self.path(css, smooth(points), points)

    def corners(self, css: str, points: Sequence[Point]) -> None:
        self.path(css, polygon(points), points)

    def limb(self, css: str, *links: tuple[str, Point, Point]) -> None:
        """A chain of limbs: all outlines first and then what fills them, so that joints melt together."""
        ways = [(part, capsule(start, end, *THICK[part]), start, end) for part, start, end in links]
        for part, way, start, end in ways:
            for point in (start, end):
                self.reach(point, max(THICK[part]))
            self.parts.append(f'<path class="ink" d="{way}"/>')
        for part, way, _, _ in ways:
            self.parts.append(f'<path class="limb {part}{css}" d="{way}"/>')

    def dot(self, css: str, point: Point, radius: float) -> None:
        self.reach(point, radius)
        x, y = at(point).split()
        self.parts.append(f'<circle class="{css}" cx="{x}" cy="{y}" r="{place(radius)}"/>')

    def label(self, css: str, words: str, point: Point) -> None:
        self.reach(point, 12)
        self.parts.append(text(css, words, point[0], -point[1] + 5))

    def cut(self, points: Iterable[Point], around: float) -> None:
        """Shows no more than what is around these points; what reaches further is cut off."""
        self.xs, self.ys = [], []
        for point in points:
            self.reach(point, around)

    def drawing(self, title: str, words: str) -> Markup:
        left, right = min(self.xs) - _MARGIN, max(self.xs) + _MARGIN
        low, high = min(self.ys) - _MARGIN, max(self.ys) + _MARGIN
        moved_parts = f'<g transform="translate({place(-left)} {place(high)})">{"".join(self.parts)}</g>'
        return drawing("body", right - left, high - low, title, [moved_parts], " ".join(words.split()))
