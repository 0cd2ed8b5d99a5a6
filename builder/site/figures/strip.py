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
from builder.words.numbers import number, quantity, span

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


def draw_strip(
    words: Words,
    measure: Measure,
    reading: Reading,
    recorded: Fraction,
    lines: Iterable[ScaleLine] = (),
    band: tuple[float, float] | None = None,
) -> Markup:
    """A horizontal scale in the measure's unit from the lowest to the highest value that can be recorded.

    The lozenge is the recorded value, ticks above the scale are trials, the quiet band is the first reference
    range. `lines` stand between outcomes; `band` is where 95 of 100 true values lie. Draw either only
    once the learner has answered.
    """
    scale = measure.scale
    assert isinstance(scale, NumberScale)

    x = across(scale)
    parts: list[str] = []
    said = [words.say("Recorded: {value}.", value=quantity(recorded, scale.unit))]
    if scale.reference:
        usual = scale.reference[0]
        parts.append(
            element(
                "rect",
                "usual",
                x=x(usual.low),
                y=_TOP + 4,
                width=x(usual.high) - x(usual.low),
                height=_BASE - _TOP - 4,
            )
        )
        said.append(
            words.say(
                "Reference for {who}: {range}.",
                who=usual.who,
                range=span(usual.low, usual.high, scale.unit, words.say("to")),
            )
        )
    if band is not None:
        parts += hatched(x(band[0]), x(band[1]), _BASE - 6, 12)
        said.append(likely(words, scale, *band))
    parts.append(axis(_BASE))
    if len(reading.trials) > 1:
        for where in sorted({x(trial) for trial in reading.trials}):
            parts.append(path("trial", "M", where, _TOP + 6, "V", _BASE - 2))
        said.append(
            words.say("Trials: {trials}.", trials=", ".join(number(trial) for trial in reading.trials))
        )
    spot = x(recorded)
    taken = [
        (INSET, float(len(number(scale.start)) * ADVANCE + INSET)),
        (WIDTH - INSET - len(number(scale.stop)) * ADVANCE, float(WIDTH)),
    ]
    cuts = sorted(set(lines))
    for line in cuts:
        where = x(line.at)
        parts.append(path("line", "M", where, _TOP - 2, "V", _BASE + 6))
        label = number(line.cut)
        half = len(label) * ADVANCE / 2
        if all(where + half < left or where - half > right for left, right in taken):
            parts.append(text("cut", label, where, _BASE + 17))
            taken.append((where - half, where + half))
    if cuts:
        said.append(
            words.say(
                "Lines between outcomes: {lines}.",
                lines=", ".join(quantity(line.cut, scale.unit) for line in cuts),
            )
        )
    parts.append(path("mark", "M", spot, _BASE - 7, "l", 5, 7, "l", -5, 7, "l", -5, -7, "z"))
    label = quantity(recorded, scale.unit)
    parts.append(text("value", label, within(spot, label), _TOP - 7))
    parts.append(text("from", number(scale.start), INSET, _BASE + 17))
    parts.append(text("to", number(scale.stop), WIDTH - INSET, _BASE + 17))
    whole = span(scale.start, scale.stop, scale.unit, words.say("to"))
    said.append(words.say("Scale from {range}.", range=whole))
    return drawing("strip", WIDTH, _BASE + 22, f"{measure.label}. {' '.join(said)}", parts)


def lines_of(table: Table, measure: Measure) -> tuple[ScaleLine, ...]:
    """The lines that a table's rules draw on a number, ascending."""
    scale = measure.scale
    assert isinstance(scale, NumberScale)
    conditions = (rule.when[measure.name] for rule in table.rules if measure.name in rule.when)
    lines = drawn_lines(scale, conditions)
    return tuple(sorted({ScaleLine(line.cut, midway(scale, line.above)) for line in lines}))
