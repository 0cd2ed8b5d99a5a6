"""Nearest changes against trying every client of small random courses."""

from __future__ import annotations

from fractions import Fraction
from random import Random

from builder.course import AGE, Course, NumberScale, Reading
from builder.decide.found import find
from builder.decide.nearest import Alternatives, Change, grouped, nearest
from builder.decide.space import Space

from .referee import everyone, for_random_seeds, random_course, reads, try_everyone, values


@for_random_seeds(200)
def test_nearest_changes_are_those_of_trying_everyone(seed: int) -> None:
    random = Random(seed)
    agrees(random_course(random), random)


@for_random_seeds(100)
def test_nobody_is_made_older_or_younger(seed: int) -> None:
    random = Random(seed)
    agrees(random_course(random, aged=True), random)


def agrees(course: Course, random: Random) -> None:
    truth = try_everyone(course)
    space = Space(course)
    for client in random.sample(list(everyone(course)), min(3, len(truth.outcomes))):
        readings = as_readings(course, client)
        for table in course.tables:
            found = nearest(space, find(course, readings), table)
            expected = cheapest(course, truth.outcomes, client, table)
            got = {
                (change.outcome, change.cost, frozenset((n, to) for n, (_, to) in change.change.items()))
                for change in found
            }
            assert got == expected
            assert len(found) == len(expected)
            keys = [(change.cost, change.outcome, list(change.change)) for change in found]
            assert keys == sorted(keys)


def as_readings(course: Course, client: tuple[int, ...]) -> dict[str, Reading]:
    return {
        name: Reading((value,)) if isinstance(value, Fraction) else Reading(finding=value)
        for name, value in zip(course.measures, values(course, client), strict=True)
    }


def cheapest(
    course: Course, outcomes: dict[tuple[int, ...], dict[str, str]], client: tuple[int, ...], table: str
) -> set[tuple[str, Fraction, frozenset[tuple[str, object]]]]:
    """By trying everyone: who has another outcome at the least cost. Only what the table reads may differ."""
    names = list(course.measures)
    read = reads(course, table)
    guarded = {
        name
        for caution in course.cautions.values()
        if caution.level in ("refer", "urgent")
        for when in caution.when
        for name in when
    }
    best: dict[str, tuple[Fraction, set[frozenset[tuple[str, object]]]]] = {}
    for other, decided in outcomes.items():
        outcome = decided.get(table)
        if outcome is None or outcome == outcomes[client].get(table):
            continue
        changed = [name for name, one, two in zip(names, client, other, strict=True) if one != two]
        if not set(changed) <= read:
            continue
        cost = Fraction(0)
        for name in changed:
            scale = course.measures[name].scale
            if name == AGE:
                break
            if isinstance(scale, NumberScale):
                steps = abs(client[names.index(name)] - other[names.index(name)])
                cost += steps * scale.step / scale.sem if scale.sem else Fraction(steps)
            elif name in guarded and name not in course.tables[table].inputs:
                break
            else:
                cost += 1
        else:
            to = values(course, other)
            change = frozenset((name, to[names.index(name)]) for name in changed)
            least, ties = best.setdefault(outcome, (cost, set()))
            if cost < least:
                best[outcome] = (cost, {change})
            elif cost == least:
                ties.add(change)
    return {(outcome, cost, change) for outcome, (cost, ties) in best.items() for change in ties}


def test_changes_that_mix_freely_are_told_in_one() -> None:
    def change(outcome: str, **values: tuple[object, object]) -> Change:
        return Change(outcome, Fraction(1), values)  # type: ignore[arg-type]

    bend = change("free", bend=(Fraction(32), Fraction(35)))
    mixed = [
        change("stop", pain=(False, True), stance=("a", "b")),
        change("stop", pain=(False, True), stance=("a", "c")),
    ]
    assert grouped([bend, *mixed]) == (
        Alternatives("free", {"bend": (Fraction(32), (Fraction(35),))}),
        Alternatives("stop", {"pain": (False, (True,)), "stance": ("a", ("b", "c"))}),
    )
    apart = [change("x", bend=(1, 0), stance=("a", "b")), change("x", bend=(1, 2), stance=("a", "c"))]
    assert len(grouped(apart)) == 2, "mixing them would tell changes that are none"
    elsewhere = [change("x", stance=("a", "b")), change("y", stance=("a", "c"))]
    assert len(grouped(elsewhere)) == 2, "they do not lead to the same"
