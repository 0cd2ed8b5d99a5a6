"""The mistakes by which people come to a wrong outcome of a table.

Each is found by making the mistake: the decision is worked out as somebody would who makes it. Where several
lead to one outcome, the first of these is named:

- `ignored`: a caution that the client meets is passed over;
- `neighbour`: the outcome lies just beyond the nearest line;
- `unrounded`: the mean of the trials is not rounded to the measure's step;
- `single`: one trial is taken for the mean;
- `skipped`: an earlier table is left out;
- `mirrored`: a line is read the other way round.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from builder.course import Band, Condition, NumberScale, Table
from builder.decide.explain import Explanation, OtherRule
from builder.words import sentences
from builder.words.numbers import quantity

from .frame import ClientFacts, Slip

_JUST = 2.0
"""Standard errors within which a line counts as near."""


def slips(about: ClientFacts, table: Table) -> dict[str, tuple[Slip, str]]:
    """Wrong outcome to the mistake that leads to it and a sentence about it, which is empty where the harm of
    the outcome tells it. An outcome to which no such mistake leads is left out."""
    found: dict[str, tuple[Slip, str]] = {}
    for outcome, slip, said in (
        *_ignored(about, table),
        *_neighbours(about, table),
        *_averaged(about, table),
        *_skipped(about, table),
        *_mirrored(about, table),
    ):
        if outcome in table.outcomes and outcome != about.outcome(table.name):
            found.setdefault(outcome, (slip, said))
    return found


def _ignored(about: ClientFacts, table: Table) -> Iterator[tuple[str, Slip, str]]:
    for outcome, acted in about.acted_on[table.name].items():
        if acted.breaks:
            yield outcome, "ignored", ""


def _neighbours(about: ClientFacts, table: Table) -> Iterator[tuple[str, Slip, str]]:
    for line in about.weighed.lines[table.name] if table.name in about.well_formed else ():
        if line.beyond is not None and line.errors <= _JUST:
            unit = sentences.unit(about.course, line.measure)
            said = about.wording.text(
                "slip-neighbour", distance=quantity(about.wording.words, line.distance, unit)
            )
            yield line.beyond, "neighbour", said


def _averaged(about: ClientFacts, table: Table) -> Iterator[tuple[str, Slip, str]]:
    """What follows from the mean as it is, not rounded to the measure's step, and from each trial alone. All
    come to the same where no line lies between the trials."""
    text = about.wording.text
    for name, trials in about.astride.items():
        scale = about.course.measures[name].scale
        assert isinstance(scale, NumberScale)
        mean = sum(trials, Fraction(0)) / len(trials)
        step = quantity(about.wording.words, scale.step, scale.unit)
        yield from _decided(about, table, name, mean, "unrounded", text("slip-unrounded", step=step))
        for trial in trials:
            yield from _decided(about, table, name, trial, "single", text("slip-single"))


def _decided(
    about: ClientFacts, table: Table, measure: str, value: Fraction, slip: Slip, said: str
) -> Iterator[tuple[str, Slip, str]]:
    outcome = about.outcomes_with(measure, value)[table.name]
    if outcome is not None:
        yield outcome, slip, said


def _skipped(about: ClientFacts, table: Table) -> Iterator[tuple[str, Slip, str]]:
    """What the first rule comes to that matches if the conditions on one earlier table are left out."""
    for name in table.inputs:
        if name in about.course.tables and name not in about.course.measures:
            before = _before_the_counting(about.explained[table.name], table)
            first = next((one for one in before if all(check.input == name for check in one.failed)), None)
            if first is not None:
                label = sentences.label(about.course, name)
                yield first.rule.then, "skipped", about.wording.text("slip-skipped", table=label)


def _mirrored(about: ClientFacts, table: Table) -> Iterator[tuple[str, Slip, str]]:
    """What a rule comes to that lacks one line of a number alone, and would count if it were met."""
    explanation = about.explained[table.name]
    others = _before_the_counting(explanation, table) if table.policy == "first" else explanation.others
    for other in others:
        if len(other.failed) == 1 and _has_one_bound(other.failed[0].condition):
            yield other.rule.then, "mirrored", about.wording.text("slip-mirrored")


def _before_the_counting(explanation: Explanation, table: Table) -> Sequence[OtherRule]:
    """The rules written before the one that counts."""
    counting = explanation.decision.rule
    return explanation.others[: table.rules.index(counting)] if counting else explanation.others


def _has_one_bound(condition: Condition) -> bool:
    return isinstance(condition, Band) and len(condition.bounds) == 1


def of_outcomes(found: Mapping[str, tuple[Slip, str]], outcome: str) -> tuple[Slip | None, str]:
    """The mistake that leads to an outcome, and what is said of it."""
    return found.get(outcome, (None, ""))
