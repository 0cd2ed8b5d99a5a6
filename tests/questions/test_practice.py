"""Clients whom the builder makes up: what holds of each, and of all of them together."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest

from builder.answers import Answers
from builder.course import (
    AnyOf,
    Band,
    Case,
    Client,
    Course,
    Family,
    Implausible,
    Is,
    NumberScale,
    Practice,
    Quiz,
)
from builder.decide.evaluate import decide
from builder.decide.found import find
from builder.decide.grid import size
from builder.decide.near_lines import near_lines
from builder.questions.practice import Practised
from builder.source import load

from ..decide.courses import band, course, number, read, table, yes_no
from ..decide.referee import everyone, for_random_seeds, matches, random_course, values
from ..decide.test_nearest import as_readings
from ..source.yaml_writing import as_yaml

NAMES = tuple(f"Name {number}" for number in range(2000))


def asking(made: Course, **practice: object) -> Course:
    asks = {"each": 3, "names": NAMES, **practice}
    return replace(made, about=replace(made.about, practice=Practice(**asks)))  # type: ignore[arg-type]


def made_up(made: Course) -> Practised:
    return Answers(made).practised


@for_random_seeds(60)
def test_each_is_decided_by_the_rule_that_asked_for_them_and_is_plausible(seed: int) -> None:
    """On random courses with a random set of findings that do not occur, by trying every client."""
    random = Random(seed)
    made = random_course(random)
    measures = random.sample(list(made.measures), min(2, len(made.measures)))
    conditions = [
        (name, one)
        for each in made.tables.values()
        for rule in each.rules
        for name, one in rule.when.items()
        if name in measures
    ]
    never = dict(random.sample(conditions, min(2, len(conditions))))
    made = asking(made, plausible=(Implausible(never),) if never else (), seed=seed)
    answers = Answers(made)
    found = answers.practised
    counted: dict[tuple[str, str], int] = {}
    for case in found.cases:
        name, rule, _ = case.name.split("--")
        decision = decide(made, find(made, case.readings))[name]
        assert decision.rule is not None
        assert decision.rule.id == rule
        assert set(case.readings) == set(made.measures)
        recorded = find(made, case.readings).values
        assert not (never and matches(never, recorded)), "nobody is like that"
        counted[name, rule] = counted.get((name, rule), 0) + 1
    reached: set[tuple[str, str]] = set()
    excluded: set[tuple[str, str]] = set()
    for client in everyone(made):
        known = dict(zip(made.measures, values(made, client), strict=True))
        is_like_that = bool(never) and matches(never, known)
        for name, decision in decide(made, find(made, as_readings(made, client))).items():
            if decision.rule is not None:
                (excluded if is_like_that else reached).add((name, decision.rule.id))
    assert counted == dict.fromkeys(reached, 3)
    assert set(found.excluded) == excluded - reached
    assert found.asked == len(found.cases)


ANGLE = number("angle", 0, 100, sem=2)
KIND = table(
    "kind", "first", "angle pain",
    ("hurt", {"pain": Is(True)}, "rest"),
    ("low", {"angle": band(below=40)}, "stiff"),
    ("rest", {}, "free"),
)  # fmt: skip
SMALL = course(ANGLE, yes_no("pain"), KIND)


def angles(found: Practised, rule: str) -> list[Fraction]:
    return [case.readings["angle"].trials[0] for case in found.cases if f"--{rule}--" in case.name]


def test_they_are_spread_over_the_scale() -> None:
    """Of 20 clients of a rule one lies in each twentieth of what the rule takes (Latin hypercube sampling,
    McKay, Beckman and Conover 1979)."""
    found = made_up(asking(SMALL, each=20, near=Fraction(0)))
    drawn = sorted(angles(found, "hurt"))
    # Pain is for every angle; lines lie at 39.5 alone, from which the others keep two errors away: 36 and 44.
    for place, angle in enumerate(drawn):
        assert abs(float(angle) - 5 * place - 2.5) <= 2.5 + 4
    assert len(set(drawn)) >= 18


def test_the_stated_share_lies_near_a_line_and_the_others_keep_away() -> None:
    for share, near in ((Fraction(0), 0), (Fraction(1, 4), 5), (Fraction(1), 20)):
        answers = Answers(asking(SMALL, each=20, near=share))
        for rule in ("low", "rest"):
            clients = [client for name, client in answers.made_up.items() if f"--{rule}--" in name]
            errors = [client.lines["kind"][0].errors for client in clients]
            assert sum(error <= 1 for error in errors) == near
            assert sum(error >= 2 for error in errors) == 20 - near


def test_trials_are_as_many_as_written_clients_have_and_have_the_value_as_their_mean() -> None:
    written = {
        "a": Case("a", Client("A"), read(angle=[50, 51, 52], pain=False)),
        "b": Case("b", Client("B"), read(angle=[50, 50, 50], pain=False)),
        "c": Case("c", Client("C"), read(angle=50, pain=False)),
    }
    found = made_up(asking(replace(SMALL, cases=written), each=30))
    several = 0
    for case in found.cases:
        trials = case.readings["angle"].trials
        assert len(trials) == 3
        assert (sum(trials) / 3).denominator == 1, "the mean is the value that is recorded"
        assert max(trials) - min(trials) <= 4, "no further apart than an error to either side"
        several += len(set(trials)) > 1
    assert several > 20


def test_the_seed_settles_them_and_a_rule_more_moves_nobody_elses_readings() -> None:
    first, again = made_up(asking(SMALL)), made_up(asking(SMALL))
    assert first == again
    assert made_up(asking(SMALL, seed=2)).cases != first.cases
    hurt, low, rest = KIND.rules
    lower = replace(low, id="lower", when={"angle": band(below=10)})
    more = replace(KIND, rules=(hurt, lower, low, rest))
    grown = made_up(asking(replace(SMALL, tables={"kind": more})))
    was = {case.name: case.readings["pain"] for case in first.cases}
    now = {case.name: case.readings["pain"] for case in grown.cases}
    assert was.items() <= now.items()


def test_a_rule_is_practised_on_clients_whom_no_earlier_table_sends_on() -> None:
    """Where there are any: the last rule of the second table is for those who were sent on before."""
    first = table("first", "first", "pain", ("hurt", {"pain": Is(True)}, "stop"), ("rest", {}, "on"))
    first = replace(first, outcomes={**first.outcomes, "stop": replace(first.outcomes["stop"], ends=True)})
    then = table(
        "then", "first", "first angle",
        ("low", {"angle": band(below=40)}, "stiff"),
        ("well", {"first": AnyOf(("on",))}, "free"),
        ("ill", {}, "none"),
    )  # fmt: skip
    found = made_up(asking(course(ANGLE, yes_no("pain"), first, then), each=9))
    pain = {rule: {case.readings["pain"].finding for case in found.cases if f"then--{rule}-" in case.name}
            for rule in ("low", "well", "ill")}  # fmt: skip
    assert pain == {"low": {False}, "well": {False}, "ill": {True}}


def test_names_come_from_the_list_and_none_is_anybody_elses() -> None:
    written = {"a": Case("a", Client("Name 1"), read(angle=50, pain=False))}
    found = made_up(asking(replace(SMALL, cases=written), each=2))
    assert [case.client.name for case in found.cases] == ["Name 0", *(f"Name {n}" for n in range(2, 7))]
    short = made_up(asking(SMALL, each=2, names=("Alder", "Birch")))
    assert [case.client.name for case in short.cases] == ["Alder", "Birch"]
    assert short.asked == 6


def test_findings_that_do_not_occur_together_are_kept_to_and_what_they_leave_nobody_for_is_told() -> None:
    never = (Implausible({"pain": Is(True), "angle": Band({"at_least": Fraction(10)})}),)
    found = made_up(asking(SMALL, each=9, plausible=never))
    assert all(angle < 10 for angle in angles(found, "hurt"))
    assert made_up(asking(SMALL, plausible=(Implausible({"pain": Is(True)}),))).excluded == (
        ("kind", "hurt"),
    )
    unknown = (Implausible({"knee": Is(True)}), Implausible({"pain": AnyOf(("x",))}))
    assert len(made_up(asking(SMALL, plausible=unknown)).cases) == 9, "what cannot be read excludes nobody"


def test_a_course_that_asks_for_none_has_none() -> None:
    assert made_up(SMALL) == Practised()


def test_families_and_quizzes_ask_about_them() -> None:
    family = Family("g", "decision", "kind", "practice", "o")
    written = {"a": Case("a", Client("A"), read(angle=50, pain=False))}
    asks = replace(asking(SMALL, each=4), cases=written, questions={"g": family})
    answers = Answers(replace(asks, quizzes={"q": Quiz("q", "Q", questions=("g",))}))
    assert len(answers.bank) == 12
    assert {item.case for item in answers.bank} == set(answers.made_up)
    assert {item.id for item in answers.pools["q"]} <= {item.id for item in answers.bank}
    assert len(answers.pools["q"]) >= 9, "those near a line may be too unsure"
    every = Answers(replace(asks, questions={"g": replace(family, cases="all")}))
    assert [item.case for item in every.bank] == ["a"]


def test_one_written_as_a_case_is_decided_as_the_same_client(tmp_path: Path) -> None:
    """Each client of the small course, written to a file and loaded, comes to the same of every table."""
    folder = Path(__file__).parents[1] / "courses" / "ankle"
    made = asking(load(folder).course, each=2)
    answers = Answers(made)
    assert answers.made_up
    for file in folder.rglob("*"):
        if file.is_file():
            (tmp_path / file.relative_to(folder)).parent.mkdir(parents=True, exist_ok=True)
            (tmp_path / file.relative_to(folder)).write_bytes(file.read_bytes())
    written = [
        {
            "case": case.name,
            "client": {"name": case.client.name},
            "readings": {
                name: list(map(float, one.trials)) or one.finding for name, one in case.readings.items()
            },
        }
        for case in answers.practised.cases
    ]
    (tmp_path / "cases" / "made-up.yml").write_text(as_yaml(written), "utf-8")
    loaded = Answers(load(tmp_path).course)
    for name, client in answers.made_up.items():
        assert loaded.clients[name].decisions == client.decisions
        assert loaded.clients[name].found == client.found


def test_the_readings_stay_on_the_grid() -> None:
    odd = number("odd", "-3", "4.5", "0.5", sem="0.5")
    made = course(odd, table("t", "first", "odd", ("a", {"odd": band(below=0)}, "x"), ("b", {}, "y")))
    cases = {"k": Case("k", Client("K"), read(odd=[1, 2]))}
    found = made_up(asking(replace(made, cases=cases), each=50, near=Fraction(1, 2)))
    for case in found.cases:
        values_ = case.readings["odd"].trials
        assert all(-3 <= one <= Fraction(9, 2) and one * 2 % 1 == 0 for one in values_)
    scale = odd.scale
    assert isinstance(scale, NumberScale)
    assert size(odd) == 16
    assert near_lines(Answers(made).space, find(made, found.cases[0].readings), "t")


@pytest.mark.parametrize("each", [1, 7])
def test_as_many_as_are_asked_for(each: int) -> None:
    assert len(made_up(asking(SMALL, each=each)).cases) == 3 * each
