"""Asks which single different finding would change a client's outcome of one table.

Every option changes one measure alone, and one of them changes the outcome: the cheapest such change, counted
in standard errors of measurement for numbers (in steps where the error is 0) and as 1 for any other finding.
The wrong options leave the outcome as it is; where they can, they cross a line or stop just short of one. A
choice or yes/no that a `refer` or `urgent` caution reads is changed only for a table that reads it itself; a
client's age never is. There is no question about a client for whom no single change, or fewer than two
others, can be found, nor about one whom an earlier table sends on while this one does not.

Example: `{id: g-what-if, family: other_finding, table: plan, cases: all, objective: choose-ankle-plan}` asks
"Tern: What do you do first? The answer is: Raise the heels. Which one of these findings, all else as it is,
would change it?"
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from builder.course import Band, ChoiceScale, Family, Measure, NumberScale, Table
from builder.decide.evaluate import Decision, decide, decide_table
from builder.decide.found import Found
from builder.decide.grid import Value, size, value
from builder.decide.pathway import measures_behind, tables_behind
from builder.decide.space import read_by_referrals
from builder.words import sentences

from ..frame import Answer, ClientFacts, Draft, Frame, Says, chance_of_key, is_sent_on_before
from ..pcg import Pcg32, seed_of
from ..units import rule_unit

WRONG = 3
"""Wrong options at most."""
FEWEST_WRONG = 2


@dataclass(frozen=True, slots=True)
class _Change:
    measure: Measure
    to: Value
    cost: Fraction
    decision: Decision


def drafts(family: Family, about: ClientFacts) -> Iterator[Draft]:
    table = about.course.tables[family.table]
    outcome = about.outcome(table.name)
    if outcome is None or is_sent_on_before(table, about):
        return
    changes = list(_changes(table, about))
    turning = [one for one in changes if one.decision.outcome not in (None, outcome)]
    if not turning:
        return
    key = min(turning, key=lambda one: (one.cost, one.decision.outcome, one.measure.name))
    staying = [one for one in changes if one.decision.outcome == outcome]
    wrong = _wrong(key, staying, Pcg32(seed_of(f"{family.id}.{about.case.name}")))
    text, label = about.wording.text, table.outcomes[outcome].label
    yield Draft(
        of=about.case.name,
        stem=text(
            "other-finding-stem", client=about.case.client.name, question=table.question, outcome=label
        ),
        right=Answer((key.measure.name, key.to), _said(key, about)),
        wrong=tuple(
            Answer((one.measure.name, one.to), _said(one, about), text("other-finding-stays", outcome=label))
            for one in wrong
        ),
        why=_why(key, table, about),
        learnt=rule_unit(key.decision),
        asks=text("other-finding-list", question=table.question),
        source=table.source,
        case=about.case.name,
        table=table.name,
    )


def holds(family: Family, about: ClientFacts, says: Says) -> bool:
    """Whether the outcome changes with this finding in place of the client's own."""
    assert isinstance(says, tuple)
    name, to = says
    one = Found({**about.found.recorded, name: replace(about.found.recorded[name], value=to)})
    outcome = decide(about.course, one)[family.table].outcome
    return outcome != about.outcome(family.table)


def _changes(table: Table, about: ClientFacts) -> Iterator[_Change]:
    """Single changes worth weighing: every other choice or answer, numbers on either side of every line."""
    course = about.course
    found = about.found.values
    needed = set(tables_behind(course, table.name))
    tables = [
        course.tables[name] for name in about.explained if name in needed and name not in course.measures
    ]
    fixed = read_by_referrals(course) - set(table.inputs)
    for name in measures_behind(course, table.name):
        measure = course.measures[name]
        if measure.of_client or (not isinstance(measure.scale, NumberScale) and name in fixed):
            continue
        for to in _others(measure, found[name], tables):
            decision = _decide(tables, {**found, name: to})
            yield _Change(measure, to, _cost(measure, found[name], to), decision)


def _others(measure: Measure, found: Value, tables: list[Table]) -> Iterator[Value]:
    scale = measure.scale
    if isinstance(scale, NumberScale):
        assert isinstance(found, Fraction)
        places = {math.floor((at - scale.start) / scale.step) + near
                  for at in _lines(measure.name, tables) for near in (-1, 0, 1, 2)}  # fmt: skip
        away = max(1, math.ceil(2 * scale.sem / scale.step))
        here = int((found - scale.start) / scale.step)
        places |= {here - away, here + away}
        yield from (value(measure, place) for place in sorted(places - {here}) if 0 <= place < size(measure))
    elif isinstance(scale, ChoiceScale):
        yield from (name for name in scale.values if name != found)
    else:
        yield not found


def _lines(measure: str, tables: list[Table]) -> set[Fraction]:
    conditions = (rule.when.get(measure) for table in tables for rule in table.rules)
    return {cut for one in conditions if isinstance(one, Band) for cut in one.bounds.values()}


def _decide(tables: list[Table], found: dict[str, Value]) -> Decision:
    """The decision of the last of `tables`, the others deciding before it."""
    for table in tables:
        decision = decide_table(table, found)
        if decision.outcome is not None:
            found.setdefault(table.name, decision.outcome)
    return decision


def _cost(measure: Measure, found: Value, to: Value) -> Fraction:
    scale = measure.scale
    if isinstance(scale, NumberScale):
        assert isinstance(found, Fraction)
        assert isinstance(to, Fraction)
        return abs(to - found) / (scale.sem or scale.step)
    return Fraction(1)


def _wrong(key: _Change, staying: list[_Change], chance: Pcg32) -> list[_Change]:
    """The wrong options: the nearest to the key on its own measure, then one of each other measure by chance,
    then whatever else there is."""
    own = [one for one in staying if one.measure is key.measure]
    own.sort(key=lambda one: _cost(key.measure, key.to, one.to))
    others: dict[str, _Change] = {}
    for one in staying:
        if one.measure is not key.measure:
            others[one.measure.name] = min(others.get(one.measure.name, one), one, key=lambda it: it.cost)
    chosen = [*own[:1], *chance.shuffled(list(others.values()))]
    rest = own[1:] + [one for one in staying if one not in own and one not in chosen]
    return (chosen + rest)[:WRONG]


def _said(change: _Change, about: ClientFacts) -> str:
    return sentences.named(about.wording.words, about.course, change.measure.name, change.to)


def _why(key: _Change, table: Table, about: ClientFacts) -> str:
    rule = key.decision.rule
    said = about.wording.text(
        "other-finding-why",
        finding=_said(key, about),
        outcome=table.outcomes[key.decision.outcome or ""].label,
    )
    return f"{said}\n\n{rule.because.strip()}" if rule and rule.because else said


FRAME = Frame(("table", "cases"), drafts, holds, FEWEST_WRONG, WRONG, chance_of_key)
