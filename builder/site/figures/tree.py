"""A decision table drawn as a tree: left to right where there is room, top down where there is not."""

from __future__ import annotations

from markupsafe import Markup

from builder.course import Course, Table
from builder.decide.space import Space
from builder.decide.tree import Fork, Leaf, Tree, leaves, tree_of
from builder.words import Words
from builder.words.sentences import table_label

from .svg import drawing, path, text, wrap
from .tree_words import TreeWords

MOST_LEAVES = 40
"""A table that needs more is not drawn: nobody could read it."""
ROOM = 1080
"""The widest drawing that a desk's page shows at full size."""
_LINE, _LETTER = 17, 7.2
"""Height of a line and about the width of a letter, in the figure's type."""


def draw_tree(words: Words, course: Course, table: Table, space: Space | None = None) -> Markup | None:
    """Drawings of a table for a desk and for a phone; the stylesheet shows one. None for too big a tree.

    With `space`, as in `tree_of`. Raises Unfinished with it alone.
    """
    root = tree_of(course, table, space)
    if not isinstance(root, Fork) or leaves(root) > MOST_LEAVES:
        return None
    pen = _Pen(TreeWords(words, course, table))
    title = words.say("{table}, as a tree of questions", table=table_label(table))
    said = pen.told(root)
    wide = pen.across(root)
    if wide.width > ROOM:
        wide = pen.down(root, 640)
    narrow = pen.down(root, 300)
    return drawing("tree desk-only", wide.width, wide.height, title, wide.parts, said) + drawing(
        "tree phone-only", narrow.width, narrow.height, title, narrow.parts, said
    )


class _TreeSheet:
    """A drawing in the making."""

    def __init__(self) -> None:
        self.parts: list[str] = []
        self.width = 0.0
        self.height = 0.0

    def write(self, css: str, lines: list[str], x: float, y: float) -> None:
        """Lines of text from the top `y` down."""
        for number, line in enumerate(lines):
            self.parts.append(text(css, line, x, y + 13 + number * _LINE))
            self.width = max(self.width, x + len(line) * _LETTER)
        self.height = max(self.height, y + len(lines) * _LINE)


class _Pen:
    ASK, ON, GAP = 124, 132, 12
    """Widths of a question, of what leads on from it, and of the space beside each."""
    INDENT = 20

    def __init__(self, words: TreeWords) -> None:
        self._words = words

    def told(self, tree: Tree) -> str:
        """The tree in words."""
        if isinstance(tree, Leaf):
            return self._words.outcome(tree)
        question = self._words.question(tree)
        return "; ".join(f"{question} {self._words.way(tree, way)}: {self.told(way.to)}" for way in tree.ways)

    # Left to right: a question, its ways, and behind each way what it leads to.

    def across(self, root: Fork) -> _TreeSheet:
        sheet = _TreeSheet()
        self._across(sheet, root, 0, 0)
        return sheet

    def _across(self, sheet: _TreeSheet, tree: Tree, x: float, top: float) -> tuple[float, float]:
        """Draws a subtree below `top`. Returns the height of its root and where the space below it starts."""
        if isinstance(tree, Leaf):
            lines = wrap(self._words.outcome(tree), 26)
            sheet.write("end", lines, x, top)
            return top + len(lines) * _LINE / 2, top + len(lines) * _LINE
        stem = x + self.ASK
        label = stem + self.GAP
        after = label + self.ON + self.GAP
        ends: list[tuple[float, float]] = []
        start = top
        for way in tree.ways:
            lines = wrap(self._words.way(tree, way), 17)
            need = len(lines) * _LINE
            spare = max(0.0, need - self._height(way.to)) / 2
            y, bottom = self._across(sheet, way.to, after, start + spare)
            sheet.write("on", lines, label, y - need / 2)
            ends.append((y, label + max(map(len, lines)) * 6.4 + 6))
            start = max(bottom, start + need) + 14
        y = (ends[0][0] + ends[-1][0]) / 2
        asked = wrap(self._words.question(tree), 16)
        sheet.write("ask", asked, x, y - len(asked) * _LINE / 2)
        begin = min(x + max(map(len, asked)) * _LETTER + 4, stem - 4)
        for end, said in ends:
            sheet.parts.append(path("way", "M", begin, y, "H", stem, "V", end, "H", label - 4))
            sheet.parts.append(path("way", "M", min(said, after - 10), end, "H", after - 5))
        return y, start - 14

    def _height(self, tree: Tree) -> float:
        """The height of what a way leads to, as `_across` draws it."""
        if isinstance(tree, Leaf):
            return len(wrap(self._words.outcome(tree), 26)) * _LINE
        each = (
            max(self._height(way.to), len(wrap(self._words.way(tree, way), 17)) * _LINE) for way in tree.ways
        )
        return sum(each) + 14 * (len(tree.ways) - 1)

    # Top down: every way on a line of its own, indented below its question.

    def down(self, root: Fork, width: float) -> _TreeSheet:
        sheet = _TreeSheet()
        self._down(sheet, root, 2, 0, width)
        sheet.width = width
        return sheet

    def _down(self, sheet: _TreeSheet, fork: Fork, x: float, y: float, width: float) -> float:
        """Draws a fork from `y` down; returns where the space below it starts."""

        def block(css: str, words: str, at: float, y: float) -> float:
            lines = wrap(words, max(10, int((width - at) / _LETTER)))
            sheet.write(css, lines, at, y)
            return y + len(lines) * _LINE

        y = block("ask", self._words.question(fork), x, y) + 6
        turns: list[float] = []
        for way in fork.ways:
            turns.append(y + _LINE / 2)
            y = block("on", self._words.way(fork, way), x + self.INDENT, y) + 2
            if isinstance(way.to, Leaf):
                y = block("end", self._words.outcome(way.to), x + self.INDENT, y) + 10
            else:
                y = self._down(sheet, way.to, x + self.INDENT, y, width)
        top = turns[0] - _LINE / 2 - 4
        for turn in turns:
            sheet.parts.append(path("way", "M", x + 5, top, "V", turn, "H", x + self.INDENT - 5))
        return y
