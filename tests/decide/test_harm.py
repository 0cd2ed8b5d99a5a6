"""What acting on an answer would have done: the definition of the course format, tried against itself."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from builder.answers import Answers
from builder.course import Case, Caution, Client, Confusion, Course, Is, Outcome, Reading
from builder.decide.harm import ActedOn, Breach

from . import referee
from .courses import course, read, table, yes_no


def asked(made: Course, name: str, **readings: object) -> dict[str, ActedOn]:
    case = Case("one", Client("One"), read(**readings))
    return dict(Answers(made).of(case).acted_on[name])


def pregnant(level: str = "adapt") -> Course:
    """A plan over a screen; with the caution only the side is allowed."""
    screen = table("screen", "first", "ill", ("ill", {"ill": Is(True)}, "stop"), ("well", {}, "go"))
    plan = table(
        "plan", "first", "screen expecting",
        ("side", {"expecting": Is(True)}, "side"), ("back", {}, "back"), outcomes="side back send",
    )  # fmt: skip
    ends = {"stop": replace(screen.outcomes["stop"], ends=True), "go": screen.outcomes["go"]}
    sends = {**plan.outcomes, "send": replace(plan.outcomes["send"], ends=True)}
    demands = {"plan": ("side",)} if level != "refer" else {"screen": ("stop",)}
    caution = Caution("baby", "Baby", level, ({"expecting": Is(True)},), "", demands)  # type: ignore[arg-type]
    return course(
        yes_no("ill"), yes_no("expecting"),
        replace(screen, outcomes=ends), replace(plan, outcomes=sends), caution,
    )  # fmt: skip


def test_an_outcome_that_a_caution_forbids_is_serious() -> None:
    answers = asked(pregnant(), "plan", ill=False, expecting=True)
    assert answers["back"] == ActedOn("serious", (Breach("baby", "plan", "back"),))
    assert answers["send"] == ActedOn("none", overcautious=True), "stopping too soon is no breach"
    assert asked(pregnant(), "plan", ill=False, expecting=False)["side"].harm == "none"


def test_sending_someone_on_who_needs_an_ambulance_is_a_breach() -> None:
    answers = asked(pregnant("urgent"), "plan", ill=False, expecting=True)
    assert answers["send"] == ActedOn("serious", (Breach("baby", "plan", "send"),), overcautious=True)


def test_not_stopping_is_minor_and_serious_where_a_caution_sends_on() -> None:
    assert asked(pregnant(), "screen", ill=True, expecting=False)["go"] == ActedOn(
        "minor", passed_on=("screen",)
    )
    answer = asked(pregnant("refer"), "screen", ill=True, expecting=True)["go"]
    assert (answer.harm, answer.not_stopped) == ("serious", True)


def test_a_confusion_raises_a_harm_and_never_lowers_one() -> None:
    made = pregnant()
    told = (
        Confusion("back", "side", "They look alike.", "none"),
        Confusion("side", "back", "So do these.", "minor"),
    )
    made = replace(made, tables={**made.tables, "plan": replace(made.tables["plan"], confusions=told)})
    worse = asked(made, "plan", ill=False, expecting=True)["back"]
    assert (worse.harm, worse.because) == ("serious", "They look alike.")
    assert asked(made, "plan", ill=False, expecting=False)["side"].harm == "minor"


def test_without_a_key_nothing_is_told() -> None:
    assert asked(pregnant(), "plan", ill=False) == {}


def test_to_send_on_otherwise_than_the_key_does_is_not_too_careful() -> None:
    made = pregnant()
    plan = made.tables["plan"]
    ends = {name: replace(one, ends=name != "back") for name, one in plan.outcomes.items()}
    made = replace(made, tables={**made.tables, "plan": replace(plan, outcomes=ends)})
    assert not asked(made, "plan", ill=False, expecting=True)["send"].overcautious
    assert asked(made, "plan", ill=False, expecting=False)["send"].overcautious


def test_nor_where_the_key_is_no_outcome_of_the_table() -> None:
    made = pregnant()
    outcomes = {name: one for name, one in made.tables["plan"].outcomes.items() if name != "side"}
    made = replace(made, tables={**made.tables, "plan": replace(made.tables["plan"], outcomes=outcomes)})
    assert asked(made, "plan", ill=False, expecting=True) == {}


def brute(made: Course, values: dict[str, object], name: str, answer: str) -> tuple[str, list[Breach], bool]:
    """Harm, breaches and whether nobody was stopped, written straight from the definition."""
    keys = outcomes(made, values, {})
    depends = {name}
    while True:
        more = {one.name for one in made.tables.values() if depends & set(one.inputs)} | depends
        if more == depends:
            break
        depends = more
    came_to = outcomes(made, values, {name: answer, **{n: k for n, k in keys.items() if n not in depends}})
    written = made.tables[name].outcomes
    breaks = [
        Breach(caution.name, one, came_to[one])
        for caution in made.cautions.values()
        if any(referee.matches(when, values) for when in caution.when)
        for one in (depends if not written[answer].ends else {name})
        if one in came_to and one in caution.demands and came_to[one] not in caution.demands[one]
        and (caution.level == "urgent" or not made.tables[one].outcomes[came_to[one]].ends)
    ]  # fmt: skip
    passed = written[keys[name]].ends and not written[answer].ends
    met = {
        caution.level for caution in made.cautions.values()
        if any(referee.matches(when, values) for when in caution.when)
    }  # fmt: skip
    grave = bool(breaks) or (passed and bool(met & {"refer", "urgent"}))
    return "serious" if grave else "minor" if passed else "none", sorted(breaks), passed


def outcomes(made: Course, values: dict[str, object], fixed: dict[str, str]) -> dict[str, str]:
    """Every table's outcome, those that are fixed as they are."""
    known, found = dict(values), dict(fixed)
    known.update(fixed)
    for one in made.tables.values():  # random courses are made inputs first
        if one.name in fixed or any(name not in known for name in one.inputs):
            continue
        rules = [r for r in one.rules if referee.matches(r.when, known)]
        if rules and (one.policy == "first" or len(rules) == 1):
            found[one.name] = known[one.name] = rules[0].then
    return found


@pytest.mark.parametrize("seed", range(120))
def test_answers_are_those_of_the_definition(seed: int) -> None:
    """Unique and first tables, gaps, overlaps, missing readings, outcomes that end."""
    random = Random(seed)
    made = ending(random, referee.random_course(random, 60, aged=seed % 4 == 0))
    everyone = list(referee.everyone(made))
    for client in random.sample(everyone, min(6, len(everyone))):
        found = zip(made.measures, referee.values(made, client), strict=True)
        values = {name: value for name, value in found if random.random() < 0.9}
        case = Case("one", Client("One"), {n: reading(value) for n, value in values.items()})
        answers = Answers(made).of(case)
        keys = outcomes(made, values, {})
        for name, written in made.tables.items():
            told = answers.acted_on[name]
            assert set(told) == (set(written.outcomes) - {keys[name]} if name in keys else set())
            for answer, one in told.items():
                harm, breaks, passed = brute(made, values, name, answer)
                assert (one.harm, list(one.breaks), one.not_stopped) == (harm, breaks, passed)


def ending(random: Random, made: Course) -> Course:
    """The course with some outcomes that end."""
    tables = {
        name: replace(one, outcomes={n: ended(random, o) for n, o in one.outcomes.items()})
        for name, one in made.tables.items()
    }
    return replace(made, tables=tables)


def ended(random: Random, outcome: Outcome) -> Outcome:
    return replace(outcome, ends=random.random() < 0.4)


def reading(value: object) -> Reading:
    return Reading(finding=value) if isinstance(value, str | bool) else Reading(trials=(value,))  # type: ignore[arg-type]
