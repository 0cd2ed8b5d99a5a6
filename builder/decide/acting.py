"""For whom acting on an answer would be serious: every client who can exist, by the recorded readings alone.

The rule is that of `harm` (course format, second edition, "Unsafe answers"), said of all clients at once.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import SENDS_ON, Caution

from . import pathway
from .budget import Budget
from .diagram import NO, YES
from .space import Space


def serious(space: Space, table: str, answer: str) -> int:
    """The set of clients for whom acting on an outcome that does not end would be serious: another one is
    right, and a caution that they meet is broken, or they must be sent on and are not.

    Raises Unfinished, and ValueError for an outcome that ends.
    """
    if (table, answer) not in space.harmed:
        space.harmed[table, answer] = _serious(space, table, answer)
    return space.harmed[table, answer]


def _serious(space: Space, table: str, answer: str) -> int:
    outcomes = space.tables[table].outcomes
    if outcomes[answer].ends:
        raise ValueError(f"{answer} ends: whoever answers so has stopped")
    budget, diagrams = Budget(space.steps), space.diagrams
    right, numbers = space.larger_outcome(table), {name: at for at, name in enumerate(outcomes)}
    others = _bits(number for name, number in numbers.items() if name != answer)
    ends = _bits(number for name, number in numbers.items() if outcomes[name].ends)
    confused = _bits(
        numbers[one.right]
        for one in space.tables[table].confusions
        if one.answered == answer and one.right in numbers and one.harm == "serious"
    )
    harmed = diagrams.those(right, confused, budget)
    sent_on = NO
    for caution in space.cautions.values():
        met = space.caution(caution.name)
        if caution.level in SENDS_ON:
            sent_on = diagrams.either(sent_on, met, budget)
        broken = NO
        for one in _breaking(space, caution, table, numbers[answer], budget):
            broken = diagrams.either(broken, one, budget)
        harmed = diagrams.either(harmed, diagrams.both(met, broken, budget), budget)
    passed_on = diagrams.both(diagrams.those(right, ends, budget), sent_on, budget)
    return diagrams.both(
        diagrams.those(right, others, budget), diagrams.either(harmed, passed_on, budget), budget
    )


def _breaking(space: Space, caution: Caution, table: str, number: int, budget: Budget) -> Iterator[int]:
    """For each table that a caution makes demands on, the clients who come to what it leaves out."""
    for name, allowed in caution.demands.items():
        if name not in space.tables:
            continue
        left_out = _bits(
            at
            for at, outcome in enumerate(space.tables[name].outcomes.values())
            if outcome.name not in allowed and (not outcome.ends or caution.level == "urgent")
        )
        if name == table:
            yield YES if left_out >> number & 1 else NO
        elif table in pathway.tables_behind(space.course, name):
            yield space.diagrams.those(space.outcome_if(name, {table: number}), left_out, budget)


def _bits(numbers: Iterator[int]) -> int:
    return sum(1 << number for number in set(numbers))
