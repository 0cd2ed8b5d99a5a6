"""A client's re-test as their page tells it once the walk is done: it shows what the tables say."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from markupsafe import Markup

from builder.answers import Answers
from builder.course import Case, Measure, NumberScale, Reading
from builder.decide.grid import Value
from builder.decide.retest import Difference, Turn
from builder.words import doubt, sentences
from builder.words.numbers import quantity

from .figures import draw_before_after


@dataclass(frozen=True, slots=True)
class Compared:
    """One measure at both tests."""

    label: str
    said: str
    figure: Markup
    """Empty for anything but a number."""
    numbers: tuple[str, ...]
    """First test, re-test, difference, its standard error, minimal detectable change; with units."""
    origin: str
    """The error of one reading, and that it is assumed or whence it comes."""
    source: str | None
    """The published source that `origin` leads to."""


@dataclass(frozen=True, slots=True)
class RetestView:
    after: str
    compared: tuple[Compared, ...]
    decisions: tuple[tuple[str, str, bool], ...]
    """Table, what it said and says, and whether that changed."""
    cautions: tuple[str, ...]
    """Names of the cautions that are met only with the readings of the re-test."""
    hatched: str
    """What the hatching of the figures shows; empty where there is none."""


def retest_of(answers: Answers, case: Case) -> RetestView | None:
    """None for a client who was not tested again."""
    found = answers.of(case).retested
    if found is None or case.retest is None:
        return None
    compared = tuple(_compared(answers, case, one) for one in found.differences)
    return RetestView(
        case.retest.after,
        compared,
        tuple(_decision(answers, turn) for turn in found.turns if turn.first or turn.second),
        tuple(caution.name for caution in found.newly_met),
        doubt.unchanged(answers.words) if any(one.detectable for one in found.differences) else "",
    )


def _compared(answers: Answers, case: Case, one: Difference) -> Compared:
    assert case.retest is not None
    measure = answers.course.measures[one.measure]
    first, second = case.readings[one.measure], case.retest.readings[one.measure]
    scale = measure.scale
    if not isinstance(scale, NumberScale) or one.change is None:
        return Compared(measure.label, _finding(answers, one), Markup(""), (), "", None)
    assert isinstance(one.first, Fraction)
    assert isinstance(one.second, Fraction)
    said = [
        doubt.difference(answers.words, one.change, scale.unit, differs=one.differs, error=one.error or 0)
    ]
    if one.better is not None:
        good, bad = answers.words.say("That is for the better."), answers.words.say("That is for the worse.")
        said.append(good if one.better else bad)
    assumed = doubt.assumed(answers.words, scale)
    return Compared(
        measure.label,
        " ".join(said),
        draw_before_after(
            answers.words, measure, (first, one.first), (second, one.second), one.detectable or 0
        ),
        tuple(_numbers(answers, measure, one, first, second)),
        (assumed or doubt.published(answers.words, scale)) if scale.sem else "",
        None if assumed or not scale.sem else scale.sem_source,
    )


def _finding(answers: Answers, one: Difference) -> str:
    def found(value: Value) -> str:
        return sentences.found(answers.words, answers.course, one.measure, value)

    if one.differs:
        said = {"first": found(one.first), "second": found(one.second)}
        return answers.words.say("{first} at first, now {second}.", **said)
    return answers.words.say("{first}, as before.", first=found(one.first))


def _numbers(
    answers: Answers, measure: Measure, one: Difference, first: Reading, second: Reading
) -> Iterator[str]:
    scale = measure.scale
    assert isinstance(scale, NumberScale)
    assert one.change is not None
    yield sentences.reading(answers.words, measure, first, one.first)
    yield sentences.reading(answers.words, measure, second, one.second)
    yield ("+" if one.change > 0 else "") + quantity(answers.words, one.change, scale.unit)
    yield quantity(answers.words, one.error or 0, scale.unit, 2)
    yield quantity(answers.words, one.detectable or 0, scale.unit, 2)


def _decision(answers: Answers, turn: Turn) -> tuple[str, str, bool]:
    def outcome(name: str | None) -> str:
        if name is None:
            return answers.words.say("no decision")
        return sentences.outcome_label(answers.course, turn.table, name)

    label = sentences.label(answers.course, turn.table)
    if turn.first == turn.second:
        said = answers.words.say("{first}, as before.", first=outcome(turn.first))
    else:
        both = {"first": outcome(turn.first), "second": outcome(turn.second)}
        said = answers.words.say("{first} at first, now {second}.", **both)
    return label, said, turn.first != turn.second
