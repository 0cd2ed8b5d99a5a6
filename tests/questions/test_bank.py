"""The bank of a whole course."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from builder.answers import Answers
from builder.course import Band, Course, Family, Measure, NumberScale, Reading, Rule
from builder.decide.evaluate import decide
from builder.decide.found import find
from builder.questions import item_data
from builder.questions.marking import mark
from builder.source import load

from .told import unsure


@pytest.fixture
def ankle() -> Course:
    return load(Path(__file__).parents[1] / "courses" / "ankle").course


def test_items_come_in_file_order_and_a_familys_in_the_order_of_its_clients(ankle: Course) -> None:
    names = [item.id for item in Answers(ankle).bank]
    assert names == [
        "q-one", "q-several", "q-number", "q-order", "q-pairs",
        "g-plan.tern-03", "g-plan.plover-04", "g-plan.knot-05", "g-plan.crake-07",
    ]  # fmt: skip
    some = Family("g-plan", "decision", "plan", ("crake-07", "gone", "tern-03"), "choose-ankle-plan")
    narrowed = replace(ankle, questions={"g-plan": some})
    assert [item.id for item in Answers(narrowed).bank] == ["g-plan.crake-07", "g-plan.tern-03"]


def test_the_key_of_a_decision_is_what_the_rules_decide(ankle: Course) -> None:
    for item in Answers(ankle).bank:
        if item.case is None or item.table is None:
            continue
        outcomes = ankle.tables[item.table].outcomes
        assert [option.text for option in item.options] == [outcome.label for outcome in outcomes.values()]
        decided = decide(ankle, find(ankle, ankle.cases[item.case].readings))[item.table].outcome
        held = [option.text for option in item.options if mark(item, option.id) == 1]
        assert held == [outcomes[decided or ""].label]


def test_the_key_follows_when_a_rule_changes(ankle: Course) -> None:
    before = {item.id: item for item in Answers(ankle).bank}
    plan = ankle.tables["plan"]
    kinder = replace(plan, rules=tuple(rule for rule in plan.rules if rule.id != "stiff"))
    after = {item.id: item for item in Answers(replace(ankle, tables={**ankle.tables, "plan": kinder})).bank}
    changed = {name for name in after if after[name].digest != before[name].digest}
    assert changed == {"g-plan.tern-03"}
    assert after["g-plan.tern-03"].key != before["g-plan.tern-03"].key


def test_the_digest_follows_what_is_seen_before_answering_and_nothing_else(ankle: Course) -> None:
    (item, *_) = Answers(ankle).bank
    question = ankle.questions["q-one"]

    def digest(**changes: object) -> str:
        changed = replace(question, **changes)  # type: ignore[arg-type]
        return Answers(replace(ankle, questions={"q-one": changed})).bank[0].digest

    assert digest() == item.digest
    assert digest(why="Another reason.", source=None, objective="choose-ankle-plan") == item.digest
    assert digest(stem="Where does the foot stand?") != item.digest
    crake = ankle.cases["crake-07"]
    read = replace(crake, readings={**crake.readings, "stance": Reading(finding="wide")})
    moved = Answers(replace(ankle, cases={**ankle.cases, "crake-07": read})).bank
    assert {item.digest for item in moved} - {item.digest for item in Answers(ankle).bank} == {
        moved[-1].digest
    }


def test_the_key_digest_outlives_rewording(ankle: Course) -> None:
    """Not where the right answer says something else: only a person could tell that from a slip mended."""

    def digest(name: str, **changes: object) -> str:
        changed = replace(ankle.questions[name], **changes)  # type: ignore[arg-type]
        (item,) = Answers(replace(ankle, questions={name: changed})).bank
        assert len(item.key_digest) == 8
        return item.key_digest

    for name, question in ankle.questions.items():
        if isinstance(question, Family):
            continue
        assert digest(name, stem="Reworded", why="Another reason") == digest(name)
        options = tuple(
            replace(one, why="w", text=one.text if one.key else f"Not: {one.text}")
            for one in question.options
        )
        assert digest(name, options=options[::-1]) == digest(name)
        if question.options:
            turned = tuple(replace(one, key=not one.key) for one in question.options)
            assert digest(name, options=turned) != digest(name)
        if question.kind == "number":
            assert digest(name, answer=(question.answer or 0) + 1) != digest(name)
            assert digest(name, within=question.within + 1) != digest(name)
        if question.kind == "order":
            assert digest(name, items=question.items[::-1]) != digest(name)
        if question.kind == "pairs":
            assert digest(name, pairs=question.pairs[::-1]) == digest(name)
            first, second, *rest = question.pairs
            crossed = (replace(first, right=second.right), replace(second, right=first.right), *rest)
            assert digest(name, pairs=crossed) != digest(name)


def test_the_key_digest_of_a_decision_is_that_of_its_outcome(ankle: Course) -> None:
    def digests(made: Course) -> dict[str, str]:
        return {item.id: item.key_digest for item in Answers(made).bank}

    plan = ankle.tables["plan"]
    called = {name: replace(outcome, label=f"{name}!") for name, outcome in plan.outcomes.items()}
    renamed = replace(ankle, tables={**ankle.tables, "plan": replace(plan, outcomes=called)})
    assert digests(renamed) == digests(ankle)
    kinder = replace(plan, rules=tuple(rule for rule in plan.rules if rule.id != "stiff"))
    moved = digests(replace(ankle, tables={**ankle.tables, "plan": kinder}))
    assert {name for name, digest in moved.items() if digest != digests(ankle)[name]} == {"g-plan.tern-03"}


def test_a_decision_is_explained_beside_the_readings(ankle: Course) -> None:
    items = {item.id: item for item in Answers(ankle).bank}
    tern = items["g-plan.tern-03"]
    assert tern.why == (
        "Ankle class: Stiff, as it has to be.\n\nA wedge under the heels takes what the ankle does not give."
    )
    whys = {option.text: option.why for option in items["g-plan.knot-05"].options}
    assert whys["Raise the heels"] == (
        "Ankle class: Free; it would have to be Stiff. Whoever leaves out “Ankle class” comes to it."
    )
    assert whys["Squat deep"] == ""
    plover = {option.text: option.why for option in items["g-plan.plover-04"].options}
    assert "something else comes first" in plover["Squat deep"]
    assert items["g-plan.knot-05"].source == "common-practice"


def test_an_unsure_key_is_left_out_of_marked_quizzes(ankle: Course) -> None:
    chances = {"tern-03": {"plan": 0.79}, "crake-07": {"plan": 0.5}, "plover-04": {"plan": 0.8}}
    items = {item.id: item for item in unsure(ankle, chances)}
    assert (items["g-plan.tern-03"].chance, items["g-plan.tern-03"].marked) == (0.79, False)
    assert items["g-plan.plover-04"].marked
    assert items["g-plan.crake-07"].marked, "its author knows that the reading is near a line"
    assert (items["g-plan.knot-05"].chance, items["g-plan.knot-05"].marked) == (None, True)


def test_near_cut_has_to_name_a_number_that_the_table_rests_on(ankle: Course) -> None:
    crake = replace(ankle.cases["crake-07"], near_cut=("stance", "gone"))
    changed = replace(ankle, cases={**ankle.cases, "crake-07": crake})
    items = {item.id: item for item in unsure(changed, {"crake-07": {"plan": 0.5}})}
    assert not items["g-plan.crake-07"].marked


@pytest.mark.parametrize(
    "family",
    [Family("g", "riddle", "plan", "all", "o"), Family("g", "decision", "gone", "all", "o")],
)
def test_a_family_that_cannot_be_written_gives_no_item(ankle: Course, family: Family) -> None:
    assert Answers(replace(ankle, questions={"g": family})).bank == ()


def test_item_data_holds_no_prose(ankle: Course) -> None:
    for item in Answers(ankle).bank:
        data = item_data(item)
        recorded = {"id", "objective", "digest", "key_digest", "unit", "client", "stops"}
        assert set(data) == {"kind", "key", "harm", "breaks", *recorded}
        assert item.stem not in str(data)


def test_the_same_course_gives_the_same_bank(ankle: Course) -> None:
    assert Answers(ankle).bank == Answers(ankle).bank


def test_near_cut_speaks_for_the_number_whose_line_is_nearest(ankle: Course) -> None:
    """One meaning: that of the check `near-cut`."""
    width = Measure("width", "Width", NumberScale("cm", Fraction(0), Fraction(40), Fraction(1), Fraction(1)))
    plan = ankle.tables["plan"]
    rules = (Rule("slim", {"width": Band({"below": Fraction(4)})}, "deep_squat"), *plan.rules)
    crake = ankle.cases["crake-07"]
    readings = {**crake.readings, "width": Reading(trials=(Fraction(14),))}

    def marked(near_cut: str) -> bool:
        changed = replace(
            ankle,
            measures={**ankle.measures, "width": width},
            tables={**ankle.tables, "plan": replace(plan, inputs=(*plan.inputs, "width"), rules=rules)},
            cases={"crake-07": replace(crake, readings=readings, near_cut=(near_cut,))},
        )
        items = {item.id: item for item in unsure(changed, {"crake-07": {"plan": 0.6}})}
        return items["g-plan.crake-07"].marked

    assert marked("ankle_dorsiflexion")
    assert not marked("width"), "read by the table too, but ten errors from its line"
