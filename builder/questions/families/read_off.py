"""Draws a client's first trial of a measure and asks for its number.

Only a measure that says how it is `drawn` is asked about. Right is what lies within 1.96 standard errors of
one trial, and within one step at least; or within what the family says. The error of one trial is the
measure's `sem`, whether or not averaging shrinks it. Nobody is asked about in whose question the number
would stand, as where the name of the measure holds it.

Example: `{id: g-angle, family: read_off, measure: ankle_dorsiflexion, cases: all, objective: measure-ankle}`
asks "Tern: read “Knee-to-wall dorsiflexion” off the drawing. What number does it show?"
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from builder.course import Family, NumberScale
from builder.decide.doubt import QUANTILE
from builder.words.numbers import quantity

from ..figures import ReadingFigure
from ..frame import Answer, ClientFacts, Draft, Frame, Says
from ..numbers import read_number
from ..units import reading_unit

_NUMBER = re.compile(r"[0-9]+(?:[.,][0-9]+)?")


def drafts(family: Family, about: ClientFacts) -> Iterator[Draft]:
    measure, drawn = about.course.measures.get(family.measure or ""), _drawn(family, about)
    if measure is None or drawn is None:
        return
    scale, trial = drawn
    text, words, within = about.wording.text, about.wording.words, _within(family, scale)
    stem = text("read-off-stem", client=about.case.client.name, measure=measure.label)
    if abs(trial) in map(read_number, _NUMBER.findall(stem)):
        return
    yield Draft(
        of=about.case.name,
        stem=stem,
        right=Answer(trial, ""),
        wrong=(),
        why=text(
            "read-off-why",
            value=quantity(words, trial, scale.unit),
            within=quantity(words, within, scale.unit),
        ),
        learnt=reading_unit(measure.name),
        number=(trial, within),
        unit=scale.unit,
        asks=text("read-off-list", measure=measure.label),
        source=measure.source,
        case=about.case.name,
        figure=ReadingFigure(measure.name, trial),
    )


def holds(family: Family, about: ClientFacts, says: Says) -> bool:
    """Whether it is near enough to the first trial that was read of the client."""
    drawn = _drawn(family, about)
    assert isinstance(says, Fraction)
    return drawn is not None and abs(says - drawn[1]) <= _within(family, drawn[0])


def _within(family: Family, scale: NumberScale) -> Fraction:
    """How far off still holds."""
    return max(scale.step, QUANTILE * scale.sem) if family.within is None else family.within


def _drawn(family: Family, about: ClientFacts) -> tuple[NumberScale, Fraction] | None:
    """The scale of a measure that can be drawn and the client's first trial; None where either is missing."""
    measure = about.course.measures.get(family.measure or "")
    reading = about.case.readings.get(family.measure or "")
    scale = measure.scale if measure else None
    if not isinstance(scale, NumberScale) or scale.drawn is None or reading is None or not reading.trials:
        return None
    return scale, reading.trials[0]


FRAME = Frame(("measure", "cases"), drafts, holds)
