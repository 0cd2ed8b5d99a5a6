"""What acting on an answer would have done: the definition of the course format, tried against itself."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from random import Random

import pytest

from builder.answers import Answers
from builder.course import Case, Caution, Client, Confusion, Course, Harm, Is, Outcome, Reading
from builder.decide.evaluate import decide, met
from builder.decide.found import find
from builder.decide.harm import ActedOn, Breach, judged
from builder.decide.pathway import graph

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


@pytest.mark.parametrize(
    ("computed", "written", "told", "in_doubt"),
    [
        ("none", "none", "none", "none"),
        ("minor", "none", "minor", "minor"),
        ("none", "minor", "minor", "minor"),
        ("serious", "none", "serious", "arguable"),
        ("serious", "minor", "serious", "arguable"),
        ("none", "serious", "serious", "serious"),
        ("serious", "serious", "serious", "serious"),
    ],
)
def test_doubt_makes_arguable_what_nobody_wrote(
    computed: Harm, written: Harm, told: str, in_doubt: str
) -> None:
    one = ActedOn(computed, written=written)
    assert (one.told, replace(one, unsure=True).told) == (told, in_doubt)


def test_a_caution_that_is_broken_twice_is_named_once() -> None:
    breaks = (Breach("a", "t", "x"), Breach("a", "u", "x"), Breach("b", "t", "x"))
    assert ActedOn("serious", breaks).cautions == ["a", "b"]


def test_where_nobody_was_stopped_is_told_by_name() -> None:
    names = "hbgacfde"
    stops = [
        table(name, "first", "ill", ("ill", {"ill": Is(True)}, "stop"), ("well", {}, "go")) for name in names
    ]
    made = course(yes_no("ill"), *stops)
    ends = {
        name: replace(one, outcomes={n: replace(o, ends=n == "stop") for n, o in one.outcomes.items()})
        for name, one in made.tables.items()
    }
    found = judged_for(replace(made, tables=ends), dict.fromkeys(names, "go"), ill=True)
    assert found == ActedOn("minor", passed_on=tuple(sorted(names)))


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


def judged_for(made: Course, answers: dict[str, str], **readings: object) -> ActedOn:
    found = find(made, read(**readings))
    return judged(made, graph(made), found, decide(made, found), met(made, found), answers)


def test_what_is_done_after_going_on_counts_though_nobody_should_have_come_to_it() -> None:
    """The plan has no key: what it needs was not read, since the client is stopped before."""
    made = pregnant()
    plan = replace(made.tables["plan"], inputs=("screen", "expecting", "later"))
    made = replace(course(*made.measures.values(), yes_no("later")), tables={**made.tables, "plan": plan},
                   cautions=made.cautions)  # fmt: skip
    found = {"ill": True, "expecting": True}
    back = Breach("baby", "plan", "back")
    assert judged_for(made, {"screen": "go", "plan": "back"}, **found).breaks == (back,)
    assert judged_for(made, {"screen": "go", "plan": "side"}, **found).breaks == ()
    assert judged_for(made, {"screen": "go"}, **found).breaks == ()
    assert judged_for(made, {"screen": "stop", "plan": "back"}, **found) == ActedOn("none")


def test_a_table_of_the_name_of_a_measure_feeds_no_other() -> None:
    made = pregnant()
    named_alike = replace(made, measures={**made.measures, "screen": yes_no("screen")})
    plan = table("plan", "first", "screen", ("a", {"screen": Is(True)}, "side"), ("b", {}, "back"))
    caution = replace(made.cautions["baby"], demands={"plan": ("back",)})
    made = replace(named_alike, tables={**made.tables, "plan": plan}, cautions={"baby": caution})
    assert judged_for(made, {"screen": "go"}, ill=True, expecting=True, screen=True).breaks == ()
    assert judged_for(made, {"screen": "go"}, ill=True, expecting=True).breaks == ()


def test_the_first_reason_that_is_written_is_told() -> None:
    made = pregnant()
    told = {
        "screen": (
            Confusion("go", "stop", "", "minor"),
            Confusion("stop", "go", "Other way round.", "minor"),
        ),
        "plan": (
            Confusion("back", "side", "They look alike.", "minor"),
            Confusion("back", "side", "Late.", "none"),
        ),
    }
    tables = {name: replace(one, confusions=told[name]) for name, one in made.tables.items()}
    made = replace(made, tables=tables, cautions={})
    answers = {"screen": "go", "plan": "back"}
    assert judged_for(made, answers, ill=True, expecting=True) == ActedOn(
        "minor", passed_on=("screen",), written="minor", because="They look alike."
    )
    assert judged_for(made, {"screen": "stop", "plan": "back"}, ill=True, expecting=True).passed_on == ()


def brute(
    made: Course, values: dict[str, object], answers: dict[str, str], written: Harm = "none"
) -> tuple[Harm, list[Breach], list[str], bool]:
    """Harm, breaches, where nobody was stopped, and whether an answer was too careful, written straight from
    the definition: all named outcomes are set together, key outcomes count for nothing."""
    keys = outcomes(made, values, {})
    named = {t: a for t, a in answers.items() if t in made.tables and a in made.tables[t].outcomes}
    wrong = {t for t in named if t in keys and named[t] != keys[t]}
    anew = {one for t in named for one in depending(made, t)}
    came_to = outcomes(made, values, {n: k for n, k in keys.items() if n not in anew} | named)
    judged_too = {
        one for t in wrong if not ends(made, t, named[t]) for one in depending(made, t)
        if one not in named or one not in keys
    }  # fmt: skip
    met = [c for c in made.cautions.values() if any(referee.matches(when, values) for when in c.when)]
    breaks = [
        Breach(caution.name, t, came_to[t])
        for caution in met
        for t in wrong | judged_too
        if t in came_to and t in caution.demands and came_to[t] not in caution.demands[t]
        and (caution.level == "urgent" or not ends(made, t, came_to[t]))
    ]  # fmt: skip
    passed = [t for t in wrong if ends(made, t, keys[t]) and not ends(made, t, named[t])]
    grave = bool(breaks) or (passed and any(caution.level in ("refer", "urgent") for caution in met))
    told: list[Harm] = ["serious" if grave else "minor" if passed else "none", written]
    told += [
        one.harm for t in wrong for one in made.tables[t].confusions
        if (one.answered, one.right) == (named[t], keys[t])
    ]  # fmt: skip
    worst = max(told, key=("none", "minor", "serious").index)
    careful = any(ends(made, t, named[t]) and not ends(made, t, keys[t]) for t in wrong)
    return worst, sorted(breaks), sorted(passed), careful


def depending(made: Course, name: str) -> set[str]:
    """Every table that depends on one, itself left out."""
    found: set[str] = set()
    while True:
        more = {one.name for one in made.tables.values() if (found | {name}) & set(one.inputs)}
        if more == found:
            return found
        found = more


def ends(made: Course, name: str, outcome: str) -> bool:
    return made.tables[name].outcomes[outcome].ends


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
    for values in some_clients(random, made, 6):
        answers = Answers(made).of(client(values))
        keys = outcomes(made, values, {})
        for name, written in made.tables.items():
            told = answers.acted_on[name]
            assert list(told) == ([o for o in written.outcomes if o != keys[name]] if name in keys else [])
            for answer, one in told.items():
                harm, breaks, passed, careful = brute(made, values, {name: answer})
                assert (one.harm, list(one.breaks), one.not_stopped) == (harm, breaks, bool(passed))
                assert one.overcautious == careful


@pytest.mark.parametrize("seed", range(300))
def test_outcomes_of_several_tables_are_judged_together(seed: int) -> None:
    """Some of them the key, some of tables without one, some of no table."""
    random = Random(seed)
    made = ending(random, referee.random_course(random, 60))
    for values in some_clients(random, made, 4):
        found = find(made, client(values).readings)
        for _ in range(4):
            answers = {
                name: random.choice([*one.outcomes, *one.outcomes, "lost"])
                for name, one in random.sample(list(made.tables.items()), len(made.tables))
                if random.random() < 0.8
            } | ({"lost": "o0"} if random.random() < 0.1 else {})
            written: Harm = random.choice(("none", "none", "minor", "serious"))
            one = judged(made, graph(made), found, decide(made, found), met(made, found), answers, written)
            harm, breaks, passed, careful = brute(made, values, answers, written)
            assert (one.harm, list(one.breaks), list(one.passed_on)) == (harm, breaks, passed)
            assert one.overcautious == careful


def some_clients(random: Random, made: Course, most: int) -> Iterator[dict[str, object]]:
    """What is found of some of those who can exist, now and then with a reading missing."""
    everyone = list(referee.everyone(made))
    for one in random.sample(everyone, min(most, len(everyone))):
        found = zip(made.measures, referee.values(made, one), strict=True)
        yield {name: value for name, value in found if random.random() < 0.9}


def client(values: dict[str, object]) -> Case:
    return Case("one", Client("One"), {name: reading(value) for name, value in values.items()})


def ending(random: Random, made: Course) -> Course:
    """The course with some outcomes that end, and some that are often confused."""
    tables = {
        name: replace(
            one,
            outcomes={n: ended(random, o) for n, o in one.outcomes.items()},
            confusions=tuple(confused(random, list(one.outcomes)) for _ in range(random.randint(0, 2))),
        )
        for name, one in made.tables.items()
    }
    return replace(made, tables=tables)


def confused(random: Random, names: list[str]) -> Confusion:
    return Confusion(
        random.choice(names), random.choice(names), "Alike.", random.choice(("none", "minor", "serious"))
    )


def ended(random: Random, outcome: Outcome) -> Outcome:
    return replace(outcome, ends=random.random() < 0.4)


def reading(value: object) -> Reading:
    return Reading(finding=value) if isinstance(value, str | bool) else Reading(trials=(value,))  # type: ignore[arg-type]
