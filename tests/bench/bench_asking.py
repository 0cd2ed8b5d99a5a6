"""Prints how long it takes to work out what must be known, and what must have been asked.

    python -m tests.bench.bench_asking [CLIENTS]        (200 without)

On a made-up course of 16 measures, as many as are searched to the end: three tables of four measures each
feed a fourth, which also reads the other four; two cautions at which a client is sent on. Rules, thresholds
and clients are drawn by a seed, and clients share no readings. Times are of the processor, in milliseconds
for one client and table; the first client also pays for the diagrams.
"""

from __future__ import annotations

import statistics
import sys
import time
from fractions import Fraction
from random import Random

from builder.course import (
    About,
    AnyOf,
    Band,
    Caution,
    Condition,
    Course,
    Is,
    Measure,
    NumberScale,
    Outcome,
    Reading,
    Rule,
    Table,
    YesNoScale,
)
from builder.decide.asking import asking
from builder.decide.found import find
from builder.decide.needs import needs
from builder.decide.space import Space

MEASURES = 16
GROUP = 4


def main(clients: int) -> None:
    random = Random(16)
    course = made(random)
    space = Space(course)
    spent: dict[str, list[float]] = {"needs": [], "asking": []}
    sets, twins = [], []
    for _ in range(clients):
        found = find(course, readings(random, course))
        for name in course.tables:
            began = time.process_time()
            needs(space, found, name)
            between = time.process_time()
            one = asking(space, found, name)
            spent["needs"].append(1000 * (between - began))
            spent["asking"].append(1000 * (time.process_time() - between))
            if one:
                sets.append(len(one.differing))
                twins.append(sum(map(len, one.twins.values())))
    print(f"{MEASURES} measures, {len(course.tables)} tables, {clients} clients")
    for what, times in spent.items():
        later = times[len(course.tables) :]
        print(
            f"{what:8} first client {sum(times[: len(course.tables)]):8.1f} ms, then a table "
            f"{statistics.median(later):6.2f} ms in the middle, {max(later):6.1f} ms at most"
        )
    print(f"sets in which others differ: {max(sets)} at most; people who answer alike: {max(twins)} at most")


def made(random: Random) -> Course:
    measures = {f"m{n}": measure(f"m{n}", n) for n in range(MEASURES)}
    names, tables = list(measures), {}
    for number in range(MEASURES // GROUP):
        own = names[number * GROUP : (number + 1) * GROUP]
        fed = list(tables) if number == MEASURES // GROUP - 1 else []
        tables[f"t{number}"] = table(random, f"t{number}", [*fed, *own], measures)
    cautions = {
        f"c{n}": Caution(
            f"c{n}", f"C{n}", "refer", ({names[n]: condition(random, measures[names[n]])},), "Stop.",
            demands={"t0": ("o0",), "t3": ("o0",)},
        )
        for n in (1, 6)
    }  # fmt: skip
    return Course(About("bench", "Bench"), measures=measures, tables=tables, cautions=cautions)


def measure(name: str, number: int) -> Measure:
    scale = (
        NumberScale("deg", Fraction(0), Fraction(90), Fraction(1), Fraction(3))
        if number % 2
        else YesNoScale()
    )
    return Measure(name, name.upper(), scale, takes=Fraction(1 + number % 3))


def condition(random: Random, one: Measure) -> Condition:
    if isinstance(one.scale, YesNoScale):
        return Is(random.random() < 0.5)
    return Band({random.choice(("below", "at_least")): Fraction(random.randint(15, 75))})  # type: ignore[dict-item]


def table(random: Random, name: str, inputs: list[str], measures: dict[str, Measure]) -> Table:
    outcomes = {f"o{n}": Outcome(f"o{n}", f"O{n}", ends=n == 0) for n in range(3)}
    rules = []
    for number in range(6):
        when: dict[str, Condition] = {}
        for one in random.sample(inputs, 3):
            when[one] = (
                condition(random, measures[one]) if one in measures else AnyOf((f"o{random.randrange(3)}",))
            )
        rules.append(Rule(f"r{number}", when, f"o{random.randrange(3)}"))
    rules.append(Rule("rest", {}, "o2"))
    return Table(name, f"What of {name}?", "first", tuple(inputs), outcomes, tuple(rules))


def readings(random: Random, course: Course) -> dict[str, Reading]:
    return {
        name: Reading(finding=random.random() < 0.5)
        if isinstance(one.scale, YesNoScale)
        else Reading((Fraction(random.randint(0, 90)),))
        for name, one in course.measures.items()
    }


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
