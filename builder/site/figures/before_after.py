"""Before and after: a number at two tests on one scale, one row a test."""

from __future__ import annotations

from fractions import Fraction

from markupsafe import Markup

from builder.course import Measure, NumberScale, Reading
from builder.words import Words
from builder.words.doubt import unchanged
from builder.words.numbers import number, quantity, span

from .scale import INSET, WIDTH, across, axis, hatched, within
from .svg import drawing, path, text

_ROWS = (34, 62)
_LABELS = (_ROWS[0] - 13, _ROWS[1] + 22)
"""Above the first row and below the second, so that the way between stays clear."""
_BASE = 98


def draw_before_after(
    words: Words,
    measure: Measure,
    first: tuple[Reading, Fraction],
    second: tuple[Reading, Fraction],
    detectable: float,
) -> Markup:
    """Each test as its reading and recorded value. The lozenges are recorded values, ticks are trials; the
    hatching reaches the minimal detectable change to either side of the first."""
    scale = measure.scale
    assert isinstance(scale, NumberScale)
    x = across(scale)
    start, end = x(first[1]), x(second[1])
    parts: list[str] = []
    if detectable:
        low, high = x(float(first[1]) - detectable), x(float(first[1]) + detectable)
        parts += hatched(low, high, _ROWS[1] - 7, 14)
    parts.append(path("way", "M", start, _ROWS[0], "L", end, _ROWS[1]))
    names = words.say("First test"), words.say("Re-test")
    said = []
    for row, at, name, (reading, recorded) in zip(_ROWS, _LABELS, names, (first, second), strict=True):
        spot, shown = x(recorded), quantity(words, recorded, scale.unit)
        parts.append(path("row", "M", INSET, row, "H", WIDTH - INSET))
        if len(reading.trials) > 1:
            steps = (
                step for trial in sorted(set(reading.trials)) for step in ("M", x(trial), row - 7, "v", 14)
            )
            parts.append(path("trial", *steps))
        parts.append(path("mark", "M", spot, row - 7, "l", 5, 7, "l", -5, 7, "l", -5, -7, "z"))
        label = words.say("{name}: {value}", name=name, value=shown)
        parts.append(text("value", label, within(spot, label), at))
        said.append(f"{label}.")
    if detectable:
        said.append(unchanged(words))
    parts.append(axis(_BASE))
    parts.append(text("from", number(words, scale.start), INSET, _BASE + 17))
    parts.append(text("to", number(words, scale.stop), WIDTH - INSET, _BASE + 17))
    whole = span(words, scale.start, scale.stop, scale.unit)
    said.append(words.say("Scale from {range}.", range=whole))
    return drawing("strip again", WIDTH, _BASE + 22, f"{measure.label}. {' '.join(said)}", parts)
