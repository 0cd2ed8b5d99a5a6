"""The strip: one number on its scale, with its trials and the band that is usual."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from markupsafe import Markup

from builder.course import Measure, NumberScale, Reading, Table
from builder.decide.lines import drawn_lines, midway
from builder.words import Words
from builder.words.doubt import likely
from builder.words.numbers import listed, number, quantity, separated, span

from .scale import ADVANCE, INSET, WIDTH, across, axis, hatched, within
from .svg import drawing, element, path, text


@dataclass(frozen=True, slots=True, order=True)
class ScaleLine:
    """A line between two outcomes."""

    cut: Fraction
    """The threshold as its rule writes it."""
    at: Fraction
    """Where it is drawn."""


_TOP, _BASE = 22, 40


class Strip:
    """A horizontal scale in a measure's unit from the lowest to the highest value that can be recorded, with
    one reading on it. What is the same for every reading is drawn and said once.

    The lozenge is the recorded value, ticks above the scale are trials, the quiet band is the first reference
    range. `lines` stand between outcomes: they may be shown only once the learner has answered.
    """

    def __init__(self, words: Words, measure: Measure, lines: Iterable[ScaleLine] = ()) -> None:
        scale = measure.scale
        assert isinstance(scale, NumberScale)
        self._words = words
        self._label = measure.label
        self._scale = scale
        self._x = across(scale)
        start, stop = number(words, scale.start), number(words, scale.stop)
        self._ends = [text("from", start, INSET, _BASE + 17), text("to", stop, WIDTH - INSET, _BASE + 17)]
        whole = span(words, scale.start, scale.stop, scale.unit)
        self._said_ends = words.say("Scale from {range}.", range=whole)
        self._usual, self._said_usual = self._drawn_usual()
        taken = [
            (INSET, float(len(start) * ADVANCE + INSET)),
            (WIDTH - INSET - len(stop) * ADVANCE, float(WIDTH)),
        ]
        self._lines, self._said_lines = self._drawn_lines(sorted(set(lines)), taken)

    def draw(self, reading: Reading, recorded: Fraction, band: tuple[float, float] | None = None) -> Markup:
        """The strip with a reading. `band` is where 95 of 100 true values lie: it may be shown only once the
        learner has answered."""
        words, unit, x = self._words, self._scale.unit, self._x
        label, spot = quantity(words, recorded, unit), x(recorded)
        parts = [*self._usual]
        said = [self._label + ".", words.say("Recorded: {value}.", value=label), *self._said_usual]
        if band is not None:
            parts += hatched(x(band[0]), x(band[1]), _BASE - 6, 12)
            said.append(likely(words, self._scale, *band))
        parts.append(axis(_BASE))
        if len(reading.trials) > 1:
            for where in sorted({x(trial) for trial in reading.trials}):
                parts.append(path("trial", "M", where, _TOP + 6, "V", _BASE - 2))
            said.append(words.say("Trials: {trials}.", trials=listed(words, reading.trials)))
        parts += self._lines
        parts.append(path("mark", "M", spot, _BASE - 7, "l", 5, 7, "l", -5, 7, "l", -5, -7, "z"))
        parts.append(text("value", label, within(spot, label), _TOP - 7))
        title = " ".join([*said, *self._said_lines, self._said_ends])
        return drawing("strip", WIDTH, _BASE + 22, title, [*parts, *self._ends])

    def _drawn_usual(self) -> tuple[list[str], list[str]]:
        words, x, unit = self._words, self._x, self._scale.unit
        for usual in self._scale.reference[:1]:
            left, right = x(usual.low), x(usual.high)
            drawn = element("rect", "usual", x=left, y=_TOP + 4, width=right - left, height=_BASE - _TOP - 4)
            shown = span(words, usual.low, usual.high, unit)
            return [drawn], [words.say("Reference for {who}: {range}.", who=usual.who, range=shown)]
        return [], []

    def _drawn_lines(
        self, lines: list[ScaleLine], taken: list[tuple[float, float]]
    ) -> tuple[list[str], list[str]]:
        """Lines carry their number where none is in the way; `taken` is where some stand already."""
        words, unit, drawn = self._words, self._scale.unit, []
        for line in lines:
            where, label = self._x(line.at), number(words, line.cut)
            drawn.append(path("line", "M", where, _TOP - 2, "V", _BASE + 6))
            half = len(label) * ADVANCE / 2
            if all(where + half < left or where - half > right for left, right in taken):
                drawn.append(text("cut", label, where, _BASE + 17))
                taken.append((where - half, where + half))
        told = separated(quantity(words, line.cut, unit) for line in lines)
        return drawn, [words.say("Lines between outcomes: {lines}.", lines=told)] if lines else []


def lines_of(table: Table, measure: Measure) -> tuple[ScaleLine, ...]:
    """The lines that a table's rules draw on a number, ascending."""
    scale = measure.scale
    assert isinstance(scale, NumberScale)
    conditions = (rule.when[measure.name] for rule in table.rules if measure.name in rule.when)
    lines = drawn_lines(scale, conditions)
    return tuple(sorted({ScaleLine(line.cut, midway(scale, line.above)) for line in lines}))
