"""Chances against closed forms, published values, a direct sum over all true values, and drawing at
random."""

from __future__ import annotations

import math
from fractions import Fraction
from random import Random

import pytest
from scipy.stats import norm, truncnorm

from builder.course import AnyOf, Caution, Course, NumberScale, Reading
from builder.decide.doubt import chance_of_meeting, chances, standard_error
from builder.decide.found import Found, find
from builder.decide.near_lines import near_lines
from builder.decide.space import Space

from .courses import band, course, number, table, yes_no
from .referee import everyone, for_random_seeds, random_course, reads, try_everyone, values


def any_one(*names: str) -> AnyOf:
    return AnyOf(names)


def scale(start: int, stop: int, sem: object, of: str = "trial") -> NumberScale:
    return NumberScale("deg", Fraction(start), Fraction(stop), Fraction(1), Fraction(str(sem)), of)  # type: ignore[arg-type]


def test_averaging_shrinks_the_error_of_trials_but_not_of_sessions() -> None:
    assert standard_error(scale(0, 60, 3), 1) == 3
    assert standard_error(scale(0, 60, 3), 9) == 1
    assert standard_error(scale(0, 60, 3, "session"), 9) == 3


@pytest.mark.parametrize("trials", [(33,), (31, 33, 32), (34, 35)])
def test_one_line_in_closed_form(trials: tuple[int, ...]) -> None:
    """The line between 34 and 35 lies at 34.5; the domain ends at -0.5 and 60.5."""
    ankle = ankle_course()
    reading = Reading(tuple(map(Fraction, trials)))
    value = math.floor(sum(trials) / len(trials) + 0.5)
    error = 2 / math.sqrt(len(trials))
    expected = truncnorm.cdf(34.5, (-0.5 - value) / error, (60.5 - value) / error, value, error)
    chance = chances(Space(ankle), find(ankle, {"ankle": reading}))["class"]
    assert chance.chance == pytest.approx({"stiff": expected, "free": 1 - expected}, abs=1e-12)
    assert chance.undecided == 0


def test_two_independent_lines_multiply() -> None:
    made = course(
        number("a", 0, 60, sem=2),
        number("b", 0, 100, sem=5),
        yes_no("c"),
        table(
            "t",
            "first",
            "a b c",
            ("both", {"a": band(at_least=30), "b": band(above=50)}, "yes"),
            ("rest", {}, "no"),
        ),
    )
    readings = {"a": Reading((Fraction(31),)), "b": Reading((Fraction(48),)), "c": Reading(finding=True)}
    above = (norm.sf(29.5, 31, 2) - norm.sf(60.5, 31, 2)) / (norm.cdf(60.5, 31, 2) - norm.cdf(-0.5, 31, 2))
    over = (norm.sf(50.5, 48, 5) - norm.sf(100.5, 48, 5)) / (norm.cdf(100.5, 48, 5) - norm.cdf(-0.5, 48, 5))
    assert chances(Space(made), find(made, readings))["t"].chance["yes"] == pytest.approx(
        above * over, abs=1e-12
    )


def test_one_more_trial_at_the_same_value_makes_surer() -> None:
    ankle = ankle_course()
    space, found = Space(ankle), find(ankle, {"ankle": Reading((Fraction(33),))})
    now = chances(space, found)["class"].chance["stiff"]
    then = chances(space, found, {"ankle": 1})["class"].chance["stiff"]
    assert now == pytest.approx(norm.cdf(1.5 / 2), abs=1e-12)
    assert then == pytest.approx(norm.cdf(1.5 / (2 / math.sqrt(2))), abs=1e-12)


def test_a_missing_reading_leaves_all_undecided() -> None:
    chance = chances(Space(ankle_course()), Found())["class"]
    assert chance.chance == {"stiff": 0, "free": 0}
    assert chance.undecided == 1


def test_far_tails_keep_their_size() -> None:
    ankle = ankle_course()
    chance = chances(Space(ankle), find(ankle, {"ankle": Reading((Fraction(50),))}))["class"].chance["stiff"]
    assert chance == pytest.approx(norm.cdf(-15.5 / 2), rel=1e-6)


@for_random_seeds(150)
def test_chances_are_the_sum_over_all_true_values(seed: int) -> None:
    """Every step stands for the true values half a step around it; sums over all of them, one by one."""
    random = Random(seed)
    made = random_course(random, aged=seed % 4 == 0)
    truth = try_everyone(made)
    space = Space(made)
    client = random.choice(list(everyone(made)))
    readings = {}
    for name, value in zip(made.measures, values(made, client), strict=True):
        is_number = isinstance(value, Fraction)
        readings[name] = Reading((value,) * random.randint(1, 4)) if is_number else Reading(finding=value)
    found = chances(space, find(made, readings))
    for name in made.tables:
        expected = dict.fromkeys(made.tables[name].outcomes, 0.0)
        undecided = 0.0
        for other, outcomes in truth.outcomes.items():
            weight = math.prod(
                share(made, measure, readings[measure], index, own)
                for measure, index, own in zip(made.measures, other, client, strict=True)
            )
            if name in outcomes:
                expected[outcomes[name]] += weight
            else:
                undecided += weight
        assert found[name].chance == pytest.approx(expected, abs=1e-9)
        assert found[name].undecided == pytest.approx(undecided, abs=1e-9)


def share(made: Course, name: str, reading: Reading, index: int, own: int) -> float:
    measure = made.measures[name].scale
    if not isinstance(measure, NumberScale) or measure.sem == 0:
        return float(index == own)
    error = float(measure.sem) / (math.sqrt(len(reading.trials)) if measure.sem_of == "trial" else 1)
    step, size = float(measure.step), int((measure.stop - measure.start) / measure.step) + 1
    edges = [(i - 0.5 - own) * step / error for i in (index, index + 1, 0, size)]
    low, high, first, last = norm.cdf(edges)
    return float((high - low) / (last - first))


def test_chances_are_what_drawing_at_random_comes_to() -> None:
    """A seeded draw of 20,000 true values of every number; agrees within four standard errors of the draw."""
    random = Random(7)
    made = course(
        number("a", 0, 60, sem=3),
        number("b", 0, 100, sem=6),
        yes_no("c"),
        table(
            "first",
            "first",
            "a b",
            ("low", {"a": band(below=30)}, "x"),
            ("mid", {"b": band(at_least=40, below=60)}, "y"),
            ("rest", {"b": band(at_least=55)}, "x"),
        ),
        table(
            "second",
            "unique",
            "first a c",
            ("x", {"first": any_one("x"), "a": band(at_most=31)}, "p"),
            ("y", {"first": any_one("y")}, "q"),
            ("z", {"first": any_one("x"), "a": band(above=31)}, "q"),
        ),
    )
    readings = {
        "a": Reading((Fraction(31), Fraction(30))),
        "b": Reading((Fraction(57),)),
        "c": Reading(finding=False),
    }
    found = chances(Space(made), find(made, readings))
    draws = 20_000
    counts: dict[str, int] = {}
    kept = 0
    while kept < draws:
        a, b = random.gauss(31, 3 / math.sqrt(2)), random.gauss(57, 6)
        if not (-0.5 < a < 60.5 and -0.5 < b < 100.5):
            continue
        kept += 1
        first = "x" if a < 29.5 else "y" if 39.5 < b < 59.5 else "x" if b > 54.5 else None
        second = {"y": "q", "x": "p" if a < 31.5 else "q", None: None}[first]
        for name in (f"first {first}", f"second {second}"):
            counts[name] = counts.get(name, 0) + 1
    for name, chance in found.items():
        for outcome, p in [*chance.chance.items(), (None, chance.undecided)]:
            tolerance = 4 * math.sqrt(max(p * (1 - p), 1e-4) / draws)
            assert counts.get(f"{name} {outcome}", 0) / draws == pytest.approx(p, abs=tolerance)


def test_lines_are_told_with_their_distance() -> None:
    space = Space(ankle_course())
    found = find(space.course, {"ankle": Reading((Fraction(33), Fraction(33)))})
    (line,) = near_lines(space, found, "class")
    assert (line.measure, line.at, line.distance, line.beyond) == (
        "ankle",
        Fraction(69, 2),
        Fraction(3, 2),
        "free",
    )
    assert line.errors == pytest.approx(1.5 / (2 / math.sqrt(2)))


@for_random_seeds(100)
def test_a_line_is_where_one_number_alone_changes_the_outcome(seed: int) -> None:
    random = Random(seed)
    made = random_course(random, aged=seed % 4 == 0)
    truth = try_everyone(made)
    client = random.choice(list(everyone(made)))
    names = list(made.measures)
    readings: dict[str, Reading] = {}
    for name, value in zip(names, values(made, client), strict=True):
        readings[name] = Reading((value,)) if isinstance(value, Fraction) else Reading(finding=value)
    for name in made.tables:
        expected = set()
        for place, measure in enumerate(names):
            scale = made.measures[measure].scale
            if measure not in reads(made, name) or not isinstance(scale, NumberScale) or scale.sem == 0:
                continue
            size = int((scale.stop - scale.start) / scale.step) + 1
            for way in (range(client[place] - 1, -1, -1), range(client[place] + 1, size)):
                for index in way:
                    other = (*client[:place], index, *client[place + 1 :])
                    if truth.outcomes[other].get(name) != truth.outcomes[client].get(name):
                        half = Fraction(-way.step, 2)
                        expected.add(
                            (
                                measure,
                                scale.start + (index + half) * scale.step,
                                truth.outcomes[other].get(name),
                            )
                        )
                        break
        found = {
            (line.measure, line.at, line.beyond)
            for line in near_lines(Space(made), find(made, readings), name)
        }
        if expected:
            assert found == expected


def test_the_chance_of_meeting_a_caution() -> None:
    made = ankle_course()
    space = Space(made)
    at = {"ankle": Reading((Fraction(21),))}
    expected = norm.cdf(-1.5 / 2) - norm.cdf(-21.5 / 2)
    assert chance_of_meeting(space, find(made, at), "low") == pytest.approx(expected, abs=1e-9)
    assert chance_of_meeting(space, Found(), "low") is None


def test_what_is_certain_has_a_chance_of_exactly_1() -> None:
    """Whatever the probabilities of its parts add up to in floating point."""
    sore = {"ankle": band(below=20)}, {"ankle": band(at_least=30, below=33)}, {"swelling": band(above=5)}
    pain = Caution("pain", "Pain", "refer", sore, "")
    space = Space(course(number("ankle", 0, 60, sem=2), number("swelling", 0, 10), pain))
    for value in range(61):
        at = {"ankle": Reading((Fraction(value),)), "swelling": Reading((Fraction(8),))}
        assert chance_of_meeting(space, find(space.course, at), "pain") == 1


def ankle_course() -> Course:
    return course(
        number("ankle", 0, 60, sem=2),
        table(
            "class",
            "unique",
            "ankle",
            ("low", {"ankle": band(below=35)}, "stiff"),
            ("enough", {"ankle": band(at_least=35)}, "free"),
        ),
        Caution("low", "Low", "refer", ({"ankle": band(below=20)},), ""),
    )
