"""What must have been asked, and what guessing leaves open: against trying everyone who can exist."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from random import Random

import pytest

from builder.course import AnyOf, Caution, Course, Is, NumberScale, Table
from builder.decide.acting import serious
from builder.decide.asking import Asking, asking, least_minutes
from builder.decide.found import find
from builder.decide.needs import needs
from builder.decide.space import Space, step_cost

from .courses import band, choice, course, number, read, table, yes_no
from .referee import everyone, for_random_seeds, matches, random_course, values
from .test_harm import brute, ending, outcomes
from .test_nearest import as_readings

Person = tuple[int, ...]


def told(made: Course, person: Person) -> dict[str, object]:
    return dict(zip(made.measures, values(made, person), strict=True))


def is_harmed(made: Course, person: Person, name: str, answer: str) -> bool:
    found = told(made, person)
    keys = outcomes(made, found, {})
    return name in keys and keys[name] != answer and brute(made, found, {name: answer})[0] == "serious"


@pytest.mark.parametrize("seed", range(120))
def test_who_would_come_to_harm_is_who_does(seed: int) -> None:
    random = Random(seed)
    made = ending(random, random_course(random, 60, aged=seed % 4 == 0))
    space = Space(made)
    for name in space.tables:
        for answer, outcome in made.tables[name].outcomes.items():
            if outcome.ends:
                with pytest.raises(ValueError, match="ends"):
                    serious(space, name, answer)
                continue
            harmed = serious(space, name, answer)
            for person in everyone(made):
                cells = [
                    space.axes[one].cell(person[list(made.measures).index(one)]) for one in space.measures
                ]
                assert bool(space.diagrams.at(harmed, cells)) == is_harmed(made, person, name, answer)


@for_random_seeds(80)
def test_known_and_unsafe_are_what_trying_everyone_finds(seed: int) -> None:
    random = Random(seed)
    made = ending(random, random_course(random, 48, aged=seed % 4 == 0))
    names, people = list(made.measures), list(everyone(made))
    client = random.choice(people)
    space = Space(made)
    asked_of = [one for one in names if not made.measures[one].of_client]
    for name in space.tables:
        key = outcomes(made, told(made, client), {}).get(name)
        one = asking(space, find(made, as_readings(made, client)), name)
        if key is None:
            assert one is None
            continue
        assert one is not None
        for asked in sets_of(asked_of):
            fixed = [at for at, each in enumerate(names) if each in asked or each not in asked_of]
            alike = [p for p in people if all(p[at] == client[at] for at in fixed)]
            assert one.is_known(asked) == is_known(made, alike, name)
            for answer, outcome in made.tables[name].outcomes.items():
                harmed = [p for p in alike if not outcome.ends and is_harmed(made, p, name, answer)]
                twin = one.unsafe(answer, asked)
                if not harmed or client in harmed:  # then asking has nothing to do with it
                    assert twin is None
                    continue
                assert twin is not None
                nearest = min(harmed, key=lambda p: order(made, client, p))
                here, there = told(made, client), told(made, nearest)
                assert twin.change == {
                    each: (here[each], there[each]) for each in names if here[each] != there[each]
                }
                assert list(twin.change) == sorted(twin.change)
                assert twin.outcome == outcomes(made, there, {})[name]


def sets_of(names: list[str]) -> list[tuple[str, ...]]:
    return [chosen for size in range(len(names) + 1) for chosen in combinations(names, size)]


def is_known(made: Course, alike: list[Person], name: str) -> bool:
    results = [result(made, p, name) for p in alike]
    if len(set(results)) == 1:
        return True
    possible = [outcome for outcome, _ in results if outcome is not None]
    return all(made.tables[name].outcomes[outcome].ends for outcome in possible)


def result(made: Course, person: Person, name: str) -> tuple[str | None, tuple[bool, ...]]:
    found = told(made, person)
    counting = [c for c in made.cautions.values() if c.level in ("refer", "urgent") and name in c.demands]
    met = tuple(any(matches(when, found) for when in caution.when) for caution in counting)
    return outcomes(made, found, {}).get(name), met


def order(made: Course, client: Person, person: Person) -> tuple[int, Fraction, list[str], list[object]]:
    """The fewest changed readings, then the least cost, then names of measures and values."""
    changed = sorted((name, at) for at, name in enumerate(made.measures) if client[at] != person[at])
    cost = Fraction(0)
    for name, at in changed:
        measure = made.measures[name]
        steps = abs(client[at] - person[at]) if isinstance(measure.scale, NumberScale) else 1
        cost += steps * step_cost(measure)
    found = told(made, person)
    places = [
        ("", found[name]) if isinstance(found[name], Fraction) else (str(found[name]), Fraction(0))
        for name, _ in changed
    ]
    return len(changed), cost, [name for name, _ in changed], list(places)


def door() -> Course:
    """Somebody who faints must be sent on; a swollen knee is only asked about once nobody is sent on."""
    screen = table(
        "screen", "first", "sign", ("ill", {"sign": AnyOf(("faint",))}, "refer"), ("rest", {}, "go")
    )
    plan = table(
        "plan", "first", "screen swollen angle",
        ("sent", {"screen": AnyOf(("refer",))}, "stop"), ("hurt", {"swollen": Is(True)}, "sit"),
        ("low", {"angle": band(below=30)}, "lift"), ("else", {}, "squat"),
    )  # fmt: skip
    demands = {"screen": ("refer",)}
    faints = Caution("faints", "Faints", "refer", ({"sign": AnyOf(("faint",))},), "Stop.", demands=demands)
    return course(
        choice("sign", "none", "faint"),
        yes_no("swollen"),
        replace(number("angle", 0, 60), takes=Fraction(3)),
        that_ends(screen, "refer"),
        that_ends(plan, "stop"),
        faints,
    )


def that_ends(one: Table, name: str) -> Table:
    return replace(one, outcomes=one.outcomes | {name: replace(one.outcomes[name], ends=True)})  # type: ignore[operator]


def of(name: str, **readings: object) -> Asking:
    found = asking(Space(door()), find(door(), read(**readings)), name)
    assert found is not None
    return found


def test_going_on_unasked_is_unsafe_and_stopping_never_is() -> None:
    one = of("screen", sign="none", swollen=False, angle=40)
    assert not one.is_known(())
    assert one.is_known(("sign",))
    twin = one.unsafe("go", ())
    assert twin is not None
    assert (twin.change, twin.outcome) == ({"sign": ("none", "faint")}, "refer")
    assert one.unsafe("go", ("sign", "angle")) is None
    assert one.unsafe("refer", ()) is None


def test_what_ends_whatever_else_is_known() -> None:
    assert of("screen", sign="faint", swollen=False, angle=40).is_known(("sign",))
    assert of("plan", sign="faint", swollen=False, angle=40).is_known(("sign",))
    assert not of("plan", sign="faint", swollen=False, angle=40).is_known(("swollen", "angle"))


def test_the_least_that_is_asked_counts_what_serves_twice_once() -> None:
    space, found = Space(door()), find(door(), read(sign="none", swollen=True, angle=40))
    every = [one for one in (asking(space, found, name) for name in ("screen", "plan")) if one]
    assert least_minutes(space, every) == 2
    assert needs(space, found, "plan").sets == (("sign", "swollen"),)
    made = door()
    along = {**made.measures, "angle": replace(made.measures["angle"], taken_with="swollen")}
    together = Space(replace(made, measures=along))
    assert least_minutes(together, every) == 5, "the angle comes with the swelling, in its three minutes"
    lacking = find(door(), read(sign="none", swollen=False))
    assert asking(space, lacking, "plan") is None
