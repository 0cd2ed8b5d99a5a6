"""A decision table drawn as a tree: left to right where there is room, top down where there is not."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from builder.course import Course, Table
from builder.decide.grid import Value
from builder.words import Words
from builder.words.sentences import outcome_label, table_label

from .branches import Fork, Leaf, Tree, branches, depth, leaves
from .svg import drawing, element, path, text, wrap

Found = Mapping[str, Value | None]
"""What was found for a client, by input; empty before the answer, and for no client."""


def tree(words: Words, course: Course, table: Table, found: Found | None = None) -> Markup | None:
    """Both drawings of a table; the stylesheet shows one of them. None where the tree is too big to read.

    With `found`, the client's own way is drawn heavy: only after they have been decided about.
    """
    root = branches(words, course, table)
    if root is None or isinstance(root, Leaf):
        return None
    title = words.say("{table}, as a tree of questions", table=table_label(table))
    teller = _Teller(words, course, table, found or {})
    said = teller.told(root)
    across = drawing("tree across", *teller.across(root), title, teller.parts, said)
    teller.parts = []
    return across + drawing("tree down", *teller.down(root), title, teller.parts, said)


class _Teller:
    """Draws into `parts`; both drawings return their width and height."""

    COLUMN, ROW = 210, 46
    INDENT, LINE, NARROW = 22, 26, 336

    def __init__(self, words: Words, course: Course, table: Table, found: Found) -> None:
        self._words = words
        self._course = course
        self._table = table
        self._found = found
        self.parts: list[str] = []

    def told(self, tree: Tree) -> str:
        """The tree in words."""
        if isinstance(tree, Leaf):
            return self._outcome(tree)
        return "; ".join(f"{tree.label} {way.label}: {self.told(way.to)}" for way in tree.ways)

    def across(self, root: Tree) -> tuple[int, int]:
        self._across(root, 0, 0, True)
        return (depth(root) + 1) * self.COLUMN, leaves(root) * self.ROW

    def _across(self, tree: Tree, column: int, row: int, mine: bool) -> float:
        """Draws a subtree whose first leaf stands in `row`; returns the height of its root."""
        x = column * self.COLUMN + 2
        if isinstance(tree, Leaf):
            y = row * self.ROW + self.ROW / 2
            self._words_at(self._leaf_css(tree, mine), self._outcome(tree), x, y, 24)
            return y
        ends: list[tuple[float, bool, str]] = []
        for way in tree.ways:
            heavy = mine and way.takes(self._found.get(tree.input))
            ends.append((self._across(way.to, column + 1, row, heavy), heavy, way.label))
            row += leaves(way.to)
        y = (ends[0][0] + ends[-1][0]) / 2
        self._words_at("ask", tree.label, x, y, 15)
        stem = x + 112
        for end, heavy, label in sorted(ends, key=lambda one: one[1]):
            css = "way mine" if heavy else "way"
            self.parts.append(path(css, "M", stem - 6, y, "H", stem, "V", end, "H", x + self.COLUMN - 6))
            for number, line in enumerate(reversed(wrap(label, 13)[:2])):
                self.parts.append(text("on", line, stem + 6, end - 5 - 15 * number))
        return y

    def down(self, root: Tree) -> tuple[int, int]:
        assert isinstance(root, Fork)
        height = self._down(root, 0, 18.0, True)
        return self.NARROW, round(height)

    def _down(self, fork: Fork, level: int, y: float, mine: bool) -> float:
        """Draws a fork from `y` down; returns the height below it."""
        x = 2 + level * self.INDENT
        y = self._lines("ask", fork.label, x, y, 40 - 3 * level)
        for way in fork.ways:
            heavy = mine and way.takes(self._found.get(fork.input))
            self.parts.append(path("way mine" if heavy else "way", "M", x + 5, y - 17, "V", y - 4, "H", x + self.INDENT - 5))
            if way is not fork.ways[-1]:
                mark, top = len(self.parts), y - 4
            if isinstance(way.to, Leaf):
                y = self._lines("on", way.label, x + self.INDENT, y, 38 - 3 * level)
                y = self._lines(self._leaf_css(way.to, heavy), self._outcome(way.to), x + 2 * self.INDENT, y - 4, 34 - 3 * level)
            else:
                y = self._lines("on", way.label, x + self.INDENT, y, 38 - 3 * level)
                y = self._down(way.to, level + 1, y, heavy)
            if way is not fork.ways[-1]:
                self.parts.insert(mark, path("way", "M", x + 5, top, "V", y - 17))
        return y

    def _lines(self, css: str, words: str, x: float, y: float, limit: int) -> float:
        for line in wrap(words, limit):
            self.parts.append(text(css, line, x, y))
            y += 20
        return y + 6

    def _words_at(self, css: str, words: str, x: float, y: float, limit: int) -> None:
        """Text centred on the height `y`, in at most three lines."""
        lines = wrap(words, limit)[:3]
        for number, line in enumerate(lines):
            self.parts.append(text(css, line, x, y + 5 + (number - (len(lines) - 1) / 2) * 16))

    def _leaf_css(self, leaf: Leaf, mine: bool) -> str:
        return "end mine" if mine and self._found else "end"

    def _outcome(self, leaf: Leaf) -> str:
        if leaf.outcome is None:
            return self._words.say("no rule says")
        return outcome_label(self._course, self._table.name, leaf.outcome)
