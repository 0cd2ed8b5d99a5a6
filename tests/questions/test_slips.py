"""Mistakes that lead to a wrong outcome: against making each of them, by a referee."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from random import Random

from builder.answers import Answers
from builder.course import Case, Client, Course, Measure, NumberScale, Reading, Table
from builder.decide import grid
from builder.questions.slips import slips

from ..decide.referee import for_random_seeds, matches, random_course

Values = Mapping[str, Fraction | str | bool]


@for_random_seeds(400)
def test_a_mistake_is_named_where_making_it_leads_to_a_wrong_outcome(seed: int) -> None:
    random = Random(seed)
    made = random_course(random)
    readings = {name: a_reading(random, measure) for name, measure in made.measures.items()}
    about = Answers(replace(made, cases={"k": Case("k", Client("Wren"), readings)})).clients["k"].facts
    for table in made.tables.values():
        key = about.outcome(table.name)
        if key is None:
            continue
        named = {outcome: slip for outcome, (slip, _) in slips(about, table).items()}
        assert key not in named
        for slip, outcomes in led_to(made, readings, about.found.values, table).items():
            assert outcomes - {key} <= named.keys()
            assert {outcome for outcome, one in named.items() if one == slip} <= outcomes


def led_to(
    made: Course, readings: Mapping[str, Reading], found: Values, table: Table
) -> dict[str, set[str | None]]:
    """Mistake to the outcomes of a table that it leads to."""
    led: dict[str, set[str | None]] = {"unrounded": set(), "single": set(), "skipped": set()}
    for name, reading in readings.items():
        if len(set(reading.trials)) > 1:
            mean = sum(reading.trials, Fraction(0)) / len(reading.trials)
            led["unrounded"].add(outcomes(made, {**found, name: mean}).get(table.name))
            led["single"] |= {
                outcomes(made, {**found, name: trial}).get(table.name) for trial in reading.trials
            }
    known = {**found, **outcomes(made, found)}
    for feed in table.inputs:
        if feed in made.tables:
            left = ({name: one for name, one in rule.when.items() if name != feed} for rule in table.rules)
            thens = (rule.then for rule, when in zip(table.rules, left, strict=True) if matches(when, known))
            led["skipped"].add(next(thens, None))
    return {slip: outcomes - {None} for slip, outcomes in led.items()}


def outcomes(made: Course, found: Values) -> dict[str, str]:
    """Table to its outcome; random courses are made inputs first."""
    known, came_to = dict(found), {}
    for table in made.tables.values():
        rules = [rule for rule in table.rules if matches(rule.when, known)]
        is_known = all(name in known for name in table.inputs)
        if is_known and rules and (table.policy == "first" or len(rules) == 1):
            came_to[table.name] = known[table.name] = rules[0].then
    return came_to


def a_reading(random: Random, measure: Measure) -> Reading:
    """One that can be; of a number one to four trials."""
    taken = [grid.value(measure, random.randrange(grid.size(measure))) for _ in range(random.randint(1, 4))]
    if not isinstance(measure.scale, NumberScale):
        one = taken[0]
        assert not isinstance(one, Fraction)
        return Reading(finding=one)
    return Reading(tuple(trial for trial in taken if isinstance(trial, Fraction)))
