"""What stands in a decision table's tree: its questions, what leads on from them, and its outcomes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.course import ChoiceScale, Course, NumberScale, Table
from builder.decide.lines import DrawnLine
from builder.decide.tree import Fork, Leaf, Way
from builder.words import Words
from builder.words.numbers import quantity, span
from builder.words.sentences import joined, label, outcome_label


@dataclass(frozen=True, slots=True)
class TreeWords:
    words: Words
    course: Course
    table: Table

    def question(self, fork: Fork) -> str:
        return label(self.course, fork.input)

    def outcome(self, leaf: Leaf) -> str:
        if leaf.outcome is None:
            return self.words.say("no rule says")
        return outcome_label(self.course, self.table.name, leaf.outcome)

    def way(self, fork: Fork, way: Way) -> str:
        """`below 20°`, `20 to 30°`, `Narrow or Hip width`, `yes`."""
        measure = self.course.measures.get(fork.input)
        first, last = way.values[0], way.values[-1]
        if measure is None:
            return self._any(outcome_label(self.course, fork.input, str(value)) for value in way.values)
        scale = measure.scale
        if isinstance(scale, ChoiceScale):
            return self._any(scale.values[str(value)] for value in way.values)
        if (
            not isinstance(scale, NumberScale)
            or isinstance(first, str | bool)
            or isinstance(last, str | bool)
        ):
            return self._any(self.words.say("yes") if value else self.words.say("no") for value in way.values)
        if way.line is None:
            return span(self.words, first, last, scale.unit)
        return self._below(way.line, scale) if first == scale.start else self._above(way.line, scale)

    def _below(self, line: DrawnLine, scale: NumberScale) -> str:
        cut = quantity(self.words, line.cut, scale.unit)
        return (
            self.words.say("below {cut}", cut=cut) if line.on_it else self.words.say("at most {cut}", cut=cut)
        )

    def _above(self, line: DrawnLine, scale: NumberScale) -> str:
        cut = quantity(self.words, line.cut, scale.unit)
        return (
            self.words.say("at least {cut}", cut=cut)
            if line.on_it
            else self.words.say("above {cut}", cut=cut)
        )

    def _any(self, labels: Iterable[str]) -> str:
        return joined(self.words, self.words.say("or"), labels)
