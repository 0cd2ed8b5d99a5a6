"""Asks how far a client's reading lies from the nearest line, and what lies beyond it.

Asked about the number whose line is fewest standard errors away, among all that the table reads, by itself or
through the tables that feed it. An answer names the first value beyond a line and the outcome from there on,
all other findings as they are. Wrong answers come from mistakes: the other way, the standard error taken for
the distance, the right line with an outcome that does not lie beyond it, and a line further away. There is no
question about a client for whom no single number would change the answer, nor about one whom an earlier table
sends on while this one does not.

Example: `{id: g-line, family: line, table: plan, cases: all, objective: choose-ankle-plan}` asks "Tern: What
do you do first? The answer is: Raise the heels. Knee-to-wall dorsiflexion: 32°. Were this reading alone
another, which is the least change that gives another answer?"
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from builder.course import Family, NumberScale, Table
from builder.decide.doubt import standard_error
from builder.decide.evaluate import decide
from builder.decide.found import Found, Recorded
from builder.decide.grid import size, value
from builder.decide.near_lines import NearLine
from builder.words import sentences
from builder.words.numbers import quantity

from ..frame import Answer, ClientFacts, Draft, Frame, Says, is_sent_on_before
from ..units import rule_unit

FEWEST_WRONG = 2
WRONG = 3


@dataclass(frozen=True, slots=True)
class _Change:
    """The first value beyond a line, and the outcome from there on."""

    way: Literal["up", "down"]
    index: int
    """On the measure's domain."""
    outcome: str


def drafts(family: Family, about: ClientFacts) -> Iterator[Draft]:
    table = about.course.tables[family.table]
    key, line = about.outcome(table.name), _nearest(about, table)
    if key is None or line is None or is_sent_on_before(table, about):
        return
    right = _beyond(about, table, line)
    text, words = about.wording.text, about.wording.words
    recorded = about.found.recorded[line.measure]
    scale = about.course.measures[line.measure].scale
    assert isinstance(scale, NumberScale)
    error = standard_error(scale, recorded.trials)

    def answer(change: _Change, why: str = "") -> Answer:
        shown = quantity(words, _value(about, line.measure, change.index), scale.unit)
        label = table.outcomes[change.outcome].label
        said = text("line-up" if change.way == "up" else "line-down", value=shown, outcome=label)
        return Answer(change, said, text(why) if why else "")

    yield Draft(
        of=about.case.name,
        stem=text(
            "line-stem",
            client=about.case.client.name,
            question=table.question,
            outcome=table.outcomes[key].label,
            finding=sentences.named(words, about.course, line.measure, recorded.value),
        ),
        right=answer(right),
        wrong=tuple(
            answer(change, why)
            for change, why in _wrong(about, table, line, right, math.ceil(error / scale.step))
            if 0 <= change.index < size(about.course.measures[line.measure])
            and change.index != recorded.index
        ),
        why=text(
            "line-why",
            line=quantity(words, line.at, scale.unit),
            distance=quantity(words, line.distance, scale.unit),
            error=quantity(words, error, scale.unit, 2),
        ),
        learnt=rule_unit(about.explained[table.name].decision),
        asks=text("line-list", question=table.question),
        source=table.source,
        case=about.case.name,
        table=table.name,
    )


def holds(family: Family, about: ClientFacts, says: Says) -> bool:
    """Whether the outcome is this from there on, and no nearer value, up or down, has another one."""
    assert isinstance(says, _Change)
    table = about.course.tables[family.table]
    line = _nearest(about, table)
    assert line is not None
    key, here = about.outcome(table.name), about.found.recorded[line.measure].index
    away = says.index - here if says.way == "up" else here - says.index
    measure = about.course.measures[line.measure]
    nearer = [index for step in range(1, away) for index in (here - step, here + step)]
    return (
        away > 0
        and _outcome(about, table, line.measure, says.index) == says.outcome != key
        and all(
            _outcome(about, table, measure.name, index) == key
            for index in nearer
            if 0 <= index < size(measure)
        )
    )


def _nearest(about: ClientFacts, table: Table) -> NearLine | None:
    lines = about.weighed.lines[table.name] if table.name in about.well_formed else ()
    key = about.outcome(table.name)
    return next((line for line in lines if line.beyond not in (None, key)), None)


def _beyond(about: ClientFacts, table: Table, line: NearLine) -> _Change:
    scale = about.course.measures[line.measure].scale
    assert isinstance(scale, NumberScale)
    steps = (line.at - scale.start) / scale.step
    is_up = line.at > _value(about, line.measure, about.found.recorded[line.measure].index)
    index = math.ceil(steps) if is_up else math.floor(steps)
    return _Change("up" if is_up else "down", index, line.beyond or "")


def _wrong(
    about: ClientFacts, table: Table, line: NearLine, right: _Change, error: int
) -> Iterator[tuple[_Change, str]]:
    """Each mistake with what it comes to; some may hold after all, or lie outside the domain."""
    here, key = about.found.recorded[line.measure].index, about.outcome(table.name)
    other: Literal["up", "down"] = "down" if right.way == "up" else "up"
    yield _Change(other, 2 * here - right.index, right.outcome), "line-mirrored"
    at_error = here + error if right.way == "up" else here - error
    if at_error != right.index:
        yield _Change(right.way, at_error, right.outcome), "line-error"
    for outcome in table.outcomes:
        if outcome not in (right.outcome, key):
            yield _Change(right.way, right.index, outcome), "line-neighbour"
            break
    for further in about.weighed.lines[table.name]:
        if further.measure == line.measure and further is not line and further.beyond in table.outcomes:
            yield _beyond(about, table, further), "line-further"
    if at_error != right.index:
        yield _Change(other, 2 * here - at_error, right.outcome), "line-mirrored"


def _outcome(about: ClientFacts, table: Table, measure: str, index: int) -> str | None:
    recorded = about.found.recorded[measure]
    there = Recorded(index, value(about.course.measures[measure], index), recorded.trials)
    found = about.found.renewed(Found({measure: there}))
    return decide(about.course, found, tuple(about.explained))[table.name].outcome


def _value(about: ClientFacts, measure: str, index: int) -> Fraction:
    found = value(about.course.measures[measure], index)
    assert isinstance(found, Fraction)
    return found


FRAME = Frame(("table", "cases"), drafts, holds, FEWEST_WRONG, WRONG)
