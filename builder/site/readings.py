"""A client's numbers as pages show them."""

from __future__ import annotations

from fractions import Fraction

from markupsafe import Markup

from builder.answers import Answers
from builder.answers.on_demand import OnDemand
from builder.course import Case, Course, Measure, NumberScale
from builder.decide import pathway
from builder.decide.doubt import likely
from builder.questions import Item
from builder.words import doubt

from .figures import Strip, draw_trials, lines_of

_Spot = tuple[str, int, int]
"""Measure, index on its domain, and trials: few of them can be, so that clients share what is said of one."""


def drawing_first(measure: Measure) -> bool:
    """Whether the learner is to estimate a reading from its drawing before they see the number."""
    return isinstance(measure.scale, NumberScale) and measure.scale.read == "picture"


class Readings:
    """The numbers of a course's clients. What all clients share is drawn once."""

    def __init__(self, answers: Answers) -> None:
        self._answers = answers
        self._strips = OnDemand[tuple[str, str | None], Strip](self._strip)
        self._behind = OnDemand[str | None, tuple[str, ...]](self._measures)
        self._bands = OnDemand[_Spot, tuple[float, float] | None](self._band)
        self._doubts = OnDemand[_Spot, str](self._doubt)

    def _strip(self, drawn: tuple[str, str | None]) -> Strip:
        """A measure's strip, with the lines of a table where one is named."""
        course, (name, table) = self._answers.course, drawn
        measure = course.measures[name]
        lines = () if table is None else lines_of(course.tables[table], measure)
        return Strip(self._answers.words, measure, lines)

    def strip_of(self, case: Case, name: str, table: str | None = None) -> Markup:
        """One number of a client on its scale; empty for anything but a number that was read.

        With `table`, its lines between outcomes and the band of doubt are drawn: only for a learner who has
        answered.
        """
        recorded = self._answers.of(case).found.recorded.get(name)
        if recorded is None or not isinstance(recorded.value, Fraction):
            return Markup("")
        band = self._bands[name, recorded.index, recorded.trials] if table else None
        return self._strips[name, table].draw(case.readings[name], recorded.value, band)

    def pictures_of(self, case: Case, name: str) -> Markup:
        """Each trial of a reading drawn by itself, without its number; empty where its measure is not."""
        course, words = self._answers.course, self._answers.words
        if name not in case.readings:
            return Markup()
        drawn = draw_trials(words, course, course.measures[name], case.readings[name].trials, case.name)
        return Markup('<div class="trials">{}</div>').format(drawn) if drawn else drawn

    def doubt_of(self, case: Case, name: str) -> str:
        """What the band of doubt on a strip shows, and whether its error is assumed; empty where there is no
        band."""
        recorded = self._answers.of(case).found.recorded.get(name)
        return self._doubts[name, recorded.index, recorded.trials] if recorded else ""

    def _doubt(self, spot: _Spot) -> str:
        band, words = self._bands[spot], self._answers.words
        scale = self._answers.course.measures[spot[0]].scale
        if band is None or not isinstance(scale, NumberScale):
            return ""
        return f"{doubt.likely(words, scale, *band)} {doubt.assumed(words, scale)}".strip()

    def asked_about(self, item: Item) -> tuple[str, ...]:
        """The measures that a question is about, in file order: those behind its table, else all."""
        family = self._answers.rules.families.get(item.family or "")
        # The question itself says the words, or its drawing shows the number.
        return () if family and family.measure else self._behind[item.table]

    def told_of(self, case: Case, item: Item) -> tuple[str, ...]:
        """The readings with which a question about a client is told, of `told_of_any`: the client's own words
        where the question's table reads the measure itself, else what they come to."""
        table = self._answers.course.tables.get(item.table or "")
        itself = table.inputs if table else tuple(self._answers.course.measures)
        asked = (name for name in self.asked_about(item) if name in case.readings)
        return tuple(f"{name}:read" if name in case.said and name not in itself else name for name in asked)

    def _measures(self, table: str | None) -> tuple[str, ...]:
        course = self._answers.course
        if table is None or table not in course.tables:
            return tuple(course.measures)
        behind = pathway.measures_behind(course, table)
        return tuple(name for name in course.measures if name in behind)

    def _band(self, spot: _Spot) -> tuple[float, float] | None:
        name, index, trials = spot
        scale, recorded = self._answers.course.measures[name].scale, self._answers.space.value(name, index)
        if not isinstance(scale, NumberScale) or not isinstance(recorded, Fraction) or not scale.sem:
            return None
        return likely(scale, recorded, trials)


def told_of_any(course: Course, case: Case) -> tuple[str, ...]:
    """All that questions about a client may be told with: each reading by the name of its measure and, of
    those in the client's own words, what they come to as `NAME:read`."""
    taken = (name for name in course.measures if name in case.readings)
    return tuple(one for name in taken for one in ((name, f"{name}:read") if name in case.said else (name,)))


def readings_of(
    answers: Answers, case: Case, only: tuple[str, ...] | None = None
) -> list[tuple[str | None, list[str]]]:
    """A client's readings in groups: those open from the start, then those that wait for a table, in the
    order of the tables. With `only`, those of these names in one group."""
    taken = [name for name in answers.course.measures if name in case.readings]
    if only is not None:
        return [(None, [name for name in taken if name in only])]
    after = answers.rules.opened_after
    groups = {table: [name for name in taken if after[name] == table] for table in (None, *answers.order)}
    return [(table, names) for table, names in groups.items() if names]
