"""What a course comes to, as checks, pages and commands ask for it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path
from random import Random

import pytest

from builder.answers import Answers
from builder.answers.sentences import sure_of
from builder.course import AnyOf, Case, Client, Course, Exercise, Reading, Rule
from builder.source import load

from ..decide import referee
from ..decide.test_harm import ending
from ..exercises.exercises import case, course, table


@pytest.fixture(scope="module")
def loaded() -> Course:
    return load(Path(__file__).parents[1] / "courses" / "ankle").course


@pytest.fixture
def ankle(loaded: Course) -> Answers:
    return Answers(loaded)


def test_each_client_is_answered_once(ankle: Answers) -> None:
    for name, one in ankle.course.cases.items():
        assert ankle.of(one) is ankle.clients[name]


def test_a_client_who_is_not_in_the_course_is_answered_too(ankle: Answers) -> None:
    ankle_of = {"ankle_dorsiflexion": Reading((F(50),)), "heel_pain": Reading(finding=False)}
    stranger = ankle.of(Case("stranger", Client("S"), ankle_of))
    assert stranger.decisions["ankle_class"].outcome == "free"
    # The name alone does not make a client: someone else is called so.
    namesake = ankle.of(Case("tern-03", Client("S"), ankle_of))
    assert namesake.decisions["ankle_class"].outcome == "free"
    assert ankle.clients["tern-03"].decisions["ankle_class"].outcome == "stiff"


def test_what_is_said_of_the_whole_course(ankle: Answers) -> None:
    assert ankle.order == ("screen", "ankle_class", "plan")
    assert list(ankle.clients["tern-03"].decisions) == list(ankle.order)
    assert ankle.proofs == ()
    assert ankle.coverage.clients == len(ankle.clients)
    assert ankle.coverage.outcomes == (("plan", "refer_out"),), "rail-06 goes before"
    asked = {item.id for item in ankle.pools["all-kinds"]}
    assert "q-one" in asked
    assert asked == {item.id for item in ankle.bank}


def test_a_fault_of_the_rules_is_among_the_proofs() -> None:
    one = table("one", 5)
    gap = replace(one, rules=(one.rules[0], Rule("rest", {}, "high")))
    (found,) = Answers(course(gap)).proofs
    assert found.code == "table-overlap"


def test_cautions_that_a_client_meets(ankle: Answers) -> None:
    assert [caution.name for caution in ankle.clients["rail-06"].met] == ["heel_pain_loading"]
    assert ankle.clients["tern-03"].met == ()


def test_a_client_who_was_tested_again(ankle: Answers) -> None:
    tern = ankle.clients["tern-03"]
    assert tern.found_again is not None
    assert tern.found_again.recorded["ankle_dorsiflexion"].value == 39
    assert tern.retested is not None
    assert [turn.table for turn in tern.retested.turns if turn.first != turn.second] == [
        "ankle_class",
        "plan",
    ]


def test_a_client_who_was_not_tested_again(ankle: Answers) -> None:
    knot = ankle.clients["knot-05"]
    assert knot.found_again is None
    assert knot.retested is None


def test_how_sure_a_key_is(ankle: Answers) -> None:
    # 32 against a line at 34.5 with an error of 2 over three trials: Phi(2.165) = 0.985
    assert ankle.clients["tern-03"].chance_of_key("ankle_class") == pytest.approx(0.985, abs=0.001)
    # Not reached: there is no reading of the ankle.
    assert ankle.clients["rail-06"].decisions["ankle_class"].outcome is None
    assert ankle.clients["rail-06"].chance_of_key("ankle_class") is None


def test_a_table_that_is_not_well_formed_has_no_chance(ankle: Answers) -> None:
    plan = ankle.course.tables["plan"]
    lost = replace(plan, rules=(*plan.rules, Rule("lost", {"stance": AnyOf(("nowhere",))}, "widen")))
    broken = Answers(replace(ankle.course, tables={**ankle.course.tables, "plan": lost}))
    tern = broken.clients["tern-03"]
    assert tern.decisions["plan"].outcome == "raise_heels"
    assert tern.chance_of_key("plan") is None
    assert tern.chance_of_key("ankle_class") is not None
    assert sure_of(broken, tern.case, "plan") is None


LISTED = (
    Exercise("all", "All", "all", "x", {}),
    Exercise("some", "Some", ("tern", "wren"), "x", {}),
    Exercise("one", "One", ("tern",), "x", {}),
)


def walking(*exercises: Exercise) -> Answers:
    cases = {name: case(angle, name) for name, angle in (("wren", 3), ("tern", 7), ("knot", 5))}
    return Answers(replace(course(table("one", 5), exercises=exercises), cases=cases))


def test_exercises_are_walked_by_those_whom_they_list() -> None:
    answers = walking(*LISTED)
    walked = {name: client.exercises for name, client in answers.clients.items()}
    assert walked == {"wren": ("all", "some"), "tern": ("all", "some", "one"), "knot": ("all",)}
    assert answers.exercise("some") is LISTED[1]


def test_each_exercise_leads_from_client_to_client_and_around() -> None:
    assert walking(*LISTED).following == {
        "all": {"wren": "tern", "tern": "knot", "knot": "wren"},
        "some": {"wren": "tern", "tern": "wren"},
        "one": {"tern": "tern"},
    }


def test_who_is_listed_nowhere_walks_every_decision() -> None:
    answers = walking(LISTED[2])
    assert answers.clients["tern"].exercises == ("one",)
    assert answers.clients["wren"].exercises == ("pathway",)
    walk = answers.clients["wren"].walks["pathway"]
    assert (walk.case, walk.title) == ("wren", "Every decision")
    assert [step.table for step in walk.steps.values() if step.kind == "decide"] == ["one"]
    assert answers.clients["wren"].walks["pathway"] is walk


@pytest.mark.parametrize("seed", range(60))
def test_a_reading_waits_for_the_last_table_that_can_end_ahead_of_the_first_that_reads_it(seed: int) -> None:
    random = Random(seed)
    made = ending(random, referee.random_course(random))
    rules, opened = Answers(made).rules, dict(Answers(made).rules.opened_after)
    assert list(opened) == list(made.measures)
    for name, after in opened.items():
        reading = [place for place, one in enumerate(rules.order) if name in made.tables[one].inputs]
        before = rules.order[: reading[0]] if reading else ()
        can_end = [one for one in before if any(out.ends for out in made.tables[one].outcomes.values())]
        assert after == (can_end[-1] if can_end else None)


def test_a_condition_is_said_beside_what_was_found(ankle: Answers) -> None:
    tern = ankle.clients["tern-03"]
    (check,) = tern.explained["ankle_class"].checks
    said = tern.facts.said(check)
    assert "32" in said
    assert "35" in said
