"""Findings and conditions in words: `Knee flexion: 112° against at least 100°: 12° over`.

Names are said by their labels. Numbers carry their unit.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from builder.course import (
    AnyOf,
    Band,
    Bound,
    ChoiceScale,
    Condition,
    Course,
    Is,
    Measure,
    NumberScale,
    Reading,
    Table,
    When,
)

from .catalogue import Words
from .numbers import listed, quantity

Value = Fraction | str | bool


def label(course: Course, name: str) -> str:
    """What people call a measure or a table. A table without a title, or an unknown name, is said as written
    with spaces."""
    if name in course.measures:
        return course.measures[name].label
    if name in course.tables:
        return table_label(course.tables[name])
    return _spaced(name)


def table_label(table: Table) -> str:
    """A table's title, else its name as people would write it."""
    return table.title or _spaced(table.name)


def outcome_label(course: Course, table: str, outcome: str) -> str:
    """What people call an outcome of a table."""
    outcomes = course.tables[table].outcomes if table in course.tables else {}
    return outcomes[outcome].label if outcome in outcomes else outcome


def found(words: Words, course: Course, name: str, value: Value | None) -> str:
    """What was found for a measure, or the outcome of a table: `112°`, `Hip width`, `yes`."""
    if value is None:
        return words.say("not recorded")
    if isinstance(value, bool):
        return words.say("yes") if value else words.say("no")
    if isinstance(value, str):
        return _value_label(course, name, value)
    return quantity(words, value, unit(course, name))


def named(words: Words, course: Course, name: str, value: Value | None) -> str:
    """A finding with its name: `Knee flexion: 112°`, `Pain at rest: no`."""
    return words.say("{name}: {value}", name=label(course, name), value=found(words, course, name, value))


def reading(words: Words, measure: Measure, reading: Reading, recorded: Value | None) -> str:
    """A reading as it was taken: `32° (31, 33, 32)`; one trial stands alone."""
    if isinstance(measure.scale, NumberScale) and not isinstance(recorded, str | bool | None):
        shown = quantity(words, recorded, measure.scale.unit)
        if len(reading.trials) > 1:
            return f"{shown} ({listed(words, reading.trials)})"
        return shown
    if isinstance(recorded, bool):
        return words.say("yes") if recorded else words.say("no")
    if isinstance(measure.scale, ChoiceScale) and isinstance(recorded, str):
        return measure.scale.values.get(recorded, recorded)
    return words.say("not recorded")


def condition(words: Words, course: Course, name: str, condition: Condition) -> str:
    """What a condition asks for: `at least 100° and below 120°`, `Narrow or Hip width`, `no`."""
    match condition:
        case Band(bounds=bounds):
            shown_in = unit(course, name)
            return joined(
                words,
                words.say("and"),
                (_bound(words, bound, cut, shown_in) for bound, cut in bounds.items()),
            )
        case AnyOf(names=names):
            return joined(words, words.say("or"), (_value_label(course, name, value) for value in names))
        case Is(answer=answer):
            return words.say("yes") if answer else words.say("no")


def when(words: Words, course: Course, when: When) -> str:
    """All conditions of a rule or of one set of a caution: `Knee flexion at least 100°; Pain at rest: no`."""
    if not when:
        return words.say("everyone")
    return "; ".join(required(words, course, name, one) for name, one in when.items())


def required(words: Words, course: Course, name: str, condition_: Condition) -> str:
    """One condition with its name: `Knee flexion at least 100°`, `Pain at rest: no`."""
    asked = condition(words, course, name, condition_)
    if isinstance(condition_, Band):
        return words.say("{name} {band}", name=label(course, name), band=asked)
    return words.say("{name}: {value}", name=label(course, name), value=asked)


def check(words: Words, course: Course, name: str, condition_: Condition, value: Value | None) -> str:
    """A condition beside what was found, with the margin of a number.

    `Knee flexion: 112° against at least 100°: 12° over`; `Pain at rest: yes; it would have to be no`.
    """
    asked = condition(words, course, name, condition_)
    said = {"name": label(course, name), "value": found(words, course, name, value), "asked": asked}
    if isinstance(condition_, Band) and value is not None and not isinstance(value, str | bool):
        shown_in = unit(course, name)
        cuts = list(condition_.bounds.values())
        margin = joined(
            words,
            words.say("and"),
            (_margin(words, value, cut, shown_in, alone=len(cuts) == 1) for cut in cuts),
        )
        return words.say("{name}: {value} against {asked}: {margin}", **said, margin=margin)
    if isinstance(condition_, AnyOf):
        holds = isinstance(value, str) and value in condition_.names
    else:
        holds = isinstance(condition_, Is) and isinstance(value, bool) and value == condition_.answer
    if holds and isinstance(condition_, AnyOf) and len(condition_.names) > 1:
        return words.say("{name}: {value}, which is one of {asked}", **said)
    if holds:
        return words.say("{name}: {value}, as it has to be", **said)
    return words.say("{name}: {value}; it would have to be {asked}", **said)


def under(words: Words, part: str, what: str) -> str:
    """What is put under a part of the body: `Under the head: a folded towel.`"""
    match part:
        case "head":
            return words.say("Under the head: {what}.", what=what)
        case "trunk":
            return words.say("Under the trunk: {what}.", what=what)
        case "upper_arm":
            return words.say("Under the upper arms: {what}.", what=what)
        case "forearm":
            return words.say("Under the forearms: {what}.", what=what)
        case "thigh":
            return words.say("Under the thighs: {what}.", what=what)
        case "shank":
            return words.say("Under the lower legs: {what}.", what=what)
        case _:
            return words.say("Under the feet: {what}.", what=what)


_RARELY = 100_000


def rarely(words: Words, share: float) -> str:
    """A chance as one in so many, never rounded up; one above a tenth in whole per cent."""
    if share > 0.1:
        return f"{share:.0%}"
    if share < 1 / _RARELY:
        return words.say("under 1 in {many}", many=f"{_RARELY:,}")
    return words.say("1 in {many}", many=f"{int(1 / share):,}")


def otherwise(words: Words) -> str:
    """Instead of `check` for a rule without conditions."""
    return words.say("Nothing above fits, so this is what is left.")


def _bound(words: Words, bound: Bound, cut: Fraction, unit: str) -> str:
    shown = quantity(words, cut, unit)
    match bound:
        case "at_least":
            return words.say("at least {cut}", cut=shown)
        case "above":
            return words.say("above {cut}", cut=shown)
        case "at_most":
            return words.say("at most {cut}", cut=shown)
        case "below":
            return words.say("below {cut}", cut=shown)


def _margin(words: Words, value: Fraction, cut: Fraction, unit: str, *, alone: bool) -> str:
    """How far a number lies from a cut; one of several cuts is named."""
    said = {"margin": quantity(words, abs(value - cut), unit), "cut": quantity(words, cut, unit)}
    if value == cut:
        return words.say("right on it") if alone else words.say("right on {cut}", **said)
    if value > cut:
        return words.say("{margin} over", **said) if alone else words.say("{margin} over {cut}", **said)
    return words.say("{margin} under", **said) if alone else words.say("{margin} under {cut}", **said)


def _value_label(course: Course, name: str, value: str) -> str:
    measure = course.measures.get(name)
    if measure is not None:
        if isinstance(measure.scale, ChoiceScale):
            return measure.scale.values.get(value, value)
        return value
    return outcome_label(course, name, value)


def unit(course: Course, name: str) -> str:
    """A number's unit; empty for anything else."""
    measure = course.measures.get(name)
    return measure.scale.unit if measure is not None and isinstance(measure.scale, NumberScale) else ""


_SOUNDS = {
    "es": {
        "y": ("e", re.compile(r"\W*h?[ií](?![aeo])", re.IGNORECASE)),
        "o": ("u", re.compile(r"\W*(?:h?[oó]|8|11(?!\d))", re.IGNORECASE)),
    }
}
"""Language to what becomes of `and` and `or` before some sounds: `e` before an i, `u` before an o, and before
numbers that begin with one when read out (Real Academia Española, Diccionario panhispánico de dudas, under y²
and o²)."""
_NEVER = re.compile(r"(?!)")


def joined(words: Words, last: str, parts: Iterable[str]) -> str:
    """`a`, `a or b`, `a, b or c`; `a, b; c; or d` where one of them has a comma in it. `last` is the word for
    `and` or `or`."""
    items = list(parts)
    if len(items) < 2:
        return "".join(items)
    mark = ";" if any("," in item for item in items) else ","
    end = mark if mark == ";" else ""
    instead, before = _SOUNDS.get(words.language.partition("-")[0], {}).get(last, (last, _NEVER))
    if before.match(items[-1]):
        last = instead
    return f"{f'{mark} '.join(items[:-1])}{end} {last} {items[-1]}"


def _spaced(name: str) -> str:
    words = name.replace("_", " ").replace("-", " ")
    return words[:1].upper() + words[1:]
