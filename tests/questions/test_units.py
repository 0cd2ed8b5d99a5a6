"""What a record takes from a question or a step: its unit, whom to stop, the digest of its right answer."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from builder.answers import Answers
from builder.course import Course, Family
from builder.exercises import fault_walk, walk_data
from builder.questions import item_data
from builder.source import load

from ..conftest import ANKLE

RAIL = Family("g-screen", "decision", "screen", ("rail-06", "tern-03"), "choose-ankle-plan")

RETEST = Family("g-again", "retest", "ankle_class", "all", "measure-ankle")


@pytest.fixture
def ankle() -> Course:
    return load(ANKLE).course


def test_every_question_has_a_unit_of_a_known_kind(drill_course: Path) -> None:
    course = load(drill_course).course
    units = {item.id: item.learnt for item in Answers(course).bank}
    for unit in units.values():
        assert re.fullmatch(r"(question|retest|order):[\w-][\w.-]*|((fault|phase):)?[\w-]+/[\w-]+", unit), (
            unit
        )
    assert {"question:q-one", "plan/stiff"} <= set(units.values())
    assert {unit.partition(":")[0] for unit in units.values()} >= {"fault", "phase", "order"}
    retests = Answers(replace(course, questions={"g-again": RETEST})).bank
    assert {item.learnt for item in retests} == {"retest:ankle_dorsiflexion"}


def test_a_question_and_a_step_about_one_decision_share_a_unit(ankle: Course) -> None:
    answers = Answers(replace(ankle, questions={"g-screen": RAIL}))
    asked = {item.case: item for item in answers.bank}
    for name in RAIL.cases:
        step = answers.clients[name].walks["first-visit"].steps["screen"]
        assert asked[name].learnt == step.learnt != ""
    assert asked["rail-06"].learnt != asked["tern-03"].learnt
    steps = answers.clients["tern-03"].walks["first-visit"].steps
    assert steps["warm_up"].learnt == "step:first-visit/warm_up"
    assert steps["done"].learnt == ""


def test_whom_to_stop_is_told_where_the_right_answer_ends_and_nowhere_else(ankle: Course) -> None:
    answers = Answers(replace(ankle, questions={"g-screen": RAIL}))
    asked = {item.case: item_data(item) for item in answers.bank}
    outcomes = list(ankle.tables["screen"].outcomes)
    assert asked["rail-06"]["stops"] == ["abc"[outcomes.index("refer_out")]]
    assert asked["tern-03"]["stops"] == []
    for name, stops in (("rail-06", ["refer_out"]), ("tern-03", None)):
        data = walk_data(answers.clients[name].walks["first-visit"], ankle.about.pass_mark)
        assert data["steps"]["screen"].get("stops") == stops
    rail, tern = ankle.cases["rail-06"], ankle.cases["tern-03"]
    read = replace(rail, readings={**tern.readings, "heel_pain": rail.readings["heel_pain"]})
    walk = Answers(replace(ankle, cases={"rail-06": read})).clients["rail-06"].walks["first-visit"]
    data = walk_data(walk, ankle.about.pass_mark)
    assert data["steps"]["screen"]["breaks"] == {"clear": ["heel_pain_loading"]}


def test_signs_of_a_drill_are_its_faults(drill_course: Path) -> None:
    course = load(drill_course).course
    for drill in course.drills.values():
        walk = fault_walk(course, drill)
        if walk is None:
            continue
        units = [step.learnt for step in walk.steps.values()]
        faults = [f"fault:{drill.name}/{fault.id}" for phase in drill.phases for fault in phase.faults]
        assert set(units[:-2]) <= set(faults)
        assert units[-2:] == [f"step:drill.{drill.name}/stop", ""]


def test_the_key_digest_is_that_of_the_right_answer_alone(ankle: Course) -> None:
    def digests(made: Course) -> dict[str, str]:
        return {item.id: item.key_digest for item in Answers(made).bank}

    before = digests(ankle)
    assert all(re.fullmatch("[0-9a-f]{8}", digest) for digest in before.values())
    reworded = {
        name: question if isinstance(question, Family) else replace(question, stem="Reworded", why="")
        for name, question in ankle.questions.items()
    }
    assert digests(replace(ankle, questions=reworded)) == before
    plan = ankle.tables["plan"]
    kinder = replace(plan, rules=tuple(rule for rule in plan.rules if rule.id != "stiff"))
    moved = digests(replace(ankle, tables={**ankle.tables, "plan": kinder}))
    assert moved["g-plan.tern-03"] != before["g-plan.tern-03"]
    assert moved["g-plan.plover-04"] == before["g-plan.plover-04"]
