"""What must be known before a table is decided: against trying every set of measures on every client."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from random import Random

from builder.course import AnyOf, Caution, Course, Is
from builder.decide import needs as module
from builder.decide.found import find
from builder.decide.needs import Needs, needs
from builder.decide.space import Space

from .courses import band, choice, course, number, read, table, yes_no
from .referee import everyone, for_random_seeds, matches, random_course, try_everyone, values
from .test_nearest import as_readings


def brute(made: Course, client: tuple[int, ...], name: str) -> tuple[tuple[str, ...], ...]:
    """By trying every set on everyone who can exist."""
    names = list(made.measures)
    outcomes = try_everyone(made).outcomes
    counting = [
        one for one in made.cautions.values() if one.level in ("refer", "urgent") and name in one.demands
    ]

    def result(one: tuple[int, ...]) -> tuple[object, ...]:
        known = dict(zip(names, values(made, one), strict=True))
        met = tuple(any(matches(when, known) for when in caution.when) for caution in counting)
        return outcomes[one].get(name), met

    if outcomes[client].get(name) is None:
        return ()
    asked = [place for place, one in enumerate(names) if not made.measures[one].of_client]
    always = [place for place in range(len(names)) if place not in asked]
    people = list(everyone(made))

    def enough(chosen: tuple[int, ...]) -> bool:
        alike = (p for p in people if all(p[place] == client[place] for place in (*chosen, *always)))
        return len({result(one) for one in alike}) == 1

    good = [
        set(chosen)
        for size in range(len(asked) + 1)
        for chosen in combinations(asked, size)
        if enough(chosen)
    ]
    least = [one for one in good if not any(other < one for other in good)]
    cost = {place: made.measures[one].takes for place, one in enumerate(names)}
    cheapest = min(sum((cost[place] for place in one), Fraction(0)) for one in least)
    told = [one for one in least if sum((cost[place] for place in one), Fraction(0)) == cheapest]
    return tuple(sorted(tuple(sorted(names[place] for place in one)) for one in told))


def a_course(seed: int) -> tuple[Course, tuple[int, ...]]:
    random = Random(seed)
    made = random_course(random, 60)
    measures = {
        name: replace(one, takes=Fraction(random.choice((0, 1, 1, 2, 5))))
        for name, one in made.measures.items()
    }
    made = replace(made, measures=measures)
    return made, random.choice(list(everyone(made)))


@for_random_seeds(120)
def test_the_sets_are_those_that_trying_everyone_finds(seed: int) -> None:
    made, client = a_course(seed)
    space = Space(made)
    found = find(made, as_readings(made, client))
    for name in made.tables:
        told = brute(made, client, name)
        assert needs(space, found, name).sets == told or not try_everyone(made).outcomes[client].get(name)


@for_random_seeds(60)
def test_beyond_so_many_measures_one_set_is_told_that_is_enough(seed: int) -> None:
    made, client = a_course(seed)
    found = find(made, as_readings(made, client))
    was, module.MOST = module.MOST, -1
    try:
        for name in made.tables:
            if not try_everyone(made).outcomes[client].get(name):
                continue
            told = needs(Space(made), found, name)
            assert not told.exact
            (one,) = told.sets
            kept = {place for place, each in enumerate(made.measures) if each in one}
            people = [p for p in everyone(made) if all(p[place] == client[place] for place in kept)]
            outcomes = try_everyone(made).outcomes
            assert {outcomes[p].get(name) for p in people} == {outcomes[client].get(name)}
    finally:
        module.MOST = was


def test_the_first_no_is_enough_and_all_yes_must_be_known() -> None:
    made = course(
        yes_no("pain"), yes_no("dizzy"), number("angle", 0, 60),
        table("t", "first", "pain dizzy angle",
              ("hurt", {"pain": Is(True)}, "stop"), ("giddy", {"dizzy": Is(True)}, "stop"),
              ("low", {"angle": band(below=30)}, "lift"), ("rest", {}, "squat")),
    )  # fmt: skip

    def told(**readings: object) -> tuple[tuple[str, ...], ...]:
        return needs(Space(made), find(made, read(**readings)), "t").sets

    assert told(pain=True, dizzy=False, angle=40) == (("pain",),)
    assert told(pain=True, dizzy=True, angle=40) == (("dizzy",), ("pain",))
    assert told(pain=False, dizzy=False, angle=40) == (("angle", "dizzy", "pain"),)


def test_cost_decides_between_sets() -> None:
    either = table(
        "t",
        "first",
        "quick slow",
        ("a", {"quick": Is(True)}, "x"),
        ("b", {"slow": Is(True)}, "x"),
        ("c", {}, "y"),
    )
    slow = replace(yes_no("slow"), takes=Fraction(5))
    made = course(yes_no("quick"), slow, either)
    assert needs(Space(made), find(made, read(quick=True, slow=True)), "t").sets == (("quick",),)


def test_a_caution_that_names_the_table_must_be_known_as_well() -> None:
    plan = table("plan", "first", "stance", ("w", {"stance": AnyOf(("wide",))}, "go"), ("r", {}, "go"))
    caution = Caution("c", "C", "refer", ({"pain": Is(True)},), "", {"plan": ("stop",)})
    made = course(choice("stance", "wide", "hip"), yes_no("pain"), plan, caution)
    found = find(made, read(stance="wide", pain=False))
    assert needs(Space(made), found, "plan").sets == (("pain",),)
    watch = replace(caution, level="watch")
    assert needs(Space(replace(made, cautions={"c": watch})), found, "plan").sets == ((),)
    elsewhere = replace(caution, demands={"other": ("stop",)})
    assert needs(Space(replace(made, cautions={"c": elsewhere})), found, "plan").sets == ((),)


def test_what_was_not_read_cannot_be_enough() -> None:
    plan = table("plan", "first", "stance", ("w", {"stance": AnyOf(("wide",))}, "go"), ("r", {}, "on"))
    caution = Caution("c", "C", "refer", ({"pain": Is(True)},), "", {"plan": ("stop",)})
    made = course(choice("stance", "wide", "hip"), yes_no("pain"), plan, caution)
    assert needs(Space(made), find(made, read(stance="wide")), "plan") == Needs()
