"""A client's readings as pages show them."""

from __future__ import annotations

from fractions import Fraction

from markupsafe import Markup

from builder.answers import Answers
from builder.course import Case, NumberScale
from builder.decide.doubt import likely
from builder.words import doubt

from .canvas import Canvas
from .figures import draw_strip, lines_of


def strip_of(answers: Answers, canvas: Canvas, case: Case, name: str, table: str | None = None) -> Markup:
    """One number of a client on its scale; empty for anything but a number that was read.

    With `table`, its lines between outcomes and the band of doubt are drawn: only for a learner who has
    answered.
    """
    reading, measure = case.readings.get(name), answers.course.measures.get(name)
    value = answers.of(case).found.values.get(name)
    if reading is None or measure is None or not isinstance(value, Fraction):
        return Markup("")
    if table is None:
        return canvas.once_below(("strip", name, reading), draw_strip, answers.words, measure, reading, value)
    return draw_strip(
        answers.words,
        measure,
        reading,
        value,
        lines_of(answers.course.tables[table], measure),
        _band(answers, case, name),
    )


def doubt_of(answers: Answers, case: Case, name: str) -> str:
    """What the band of doubt on a strip shows, and whether its error is assumed; empty where there is no
    band."""
    band, measure = _band(answers, case, name), answers.course.measures.get(name)
    if band is None or measure is None or not isinstance(measure.scale, NumberScale):
        return ""
    said = (doubt.likely(answers.words, measure.scale, *band), doubt.assumed(answers.words, measure.scale))
    return " ".join(said).strip()


def _band(answers: Answers, case: Case, name: str) -> tuple[float, float] | None:
    value, measure = answers.of(case).found.values.get(name), answers.course.measures.get(name)
    if measure is None or not isinstance(measure.scale, NumberScale) or not isinstance(value, Fraction):
        return None
    if measure.scale.sem == 0:
        return None
    return likely(measure.scale, value, len(case.readings[name].trials))
