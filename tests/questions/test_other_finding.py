"""Which other finding would change a decision: against trying every single change."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.answers import Answers
from builder.course import AnyOf, Case, Caution, Client, Course, Family, Is, NumberScale, Outcome
from builder.decide.evaluate import decide
from builder.decide.found import Found, Recorded, find
from builder.decide.grid import Value, size, value
from builder.decide.pathway import measures_behind
from builder.questions import Item
from builder.questions.marking import mark
from builder.words import ENGLISH, sentences

from ..decide.courses import band, choice, course, number, read, table, yes_no
from ..decide.referee import everyone, random_course
from ..decide.test_nearest import as_readings


def asked(made: Course, name: str) -> Item | None:
    """The question about the one client of a course and a table."""
    found = Answers(replace(made, questions={"g": Family("g", "other_finding", name, "all", "o")})).bank
    return found[0] if found else None


def with_client(made: Course, **readings: object) -> Course:
    return replace(made, cases={"k": Case("k", Client("Wren"), read(**readings))})


def texts(item: Item | None) -> list[str]:
    """The key first, the wrong ones by name."""
    assert item is not None
    held = [option.text for option in item.options if mark(item, option.id) == 1]
    return held + sorted(option.text for option in item.options if option.text not in held)


def changes(made: Course, name: str) -> dict[str, tuple[Fraction, str | None, str]]:
    """Every single change of what a table rests on: as an option says it, its cost, outcome and measure."""
    found = find(made, made.cases["k"].readings)
    guarded = {
        one
        for caution in made.cautions.values()
        if caution.level in ("refer", "urgent")
        for when in caution.when
        for one in when
    } - set(made.tables[name].inputs)
    every: dict[str, tuple[Fraction, str | None, str]] = {}
    for measure in measures_behind(made, name):
        scale = made.measures[measure].scale
        here = found.recorded[measure]
        if measure in guarded and not isinstance(scale, NumberScale):
            continue
        for place in range(size(made.measures[measure])):
            if place == here.index:
                continue
            to = value(made.measures[measure], place)
            cost = Fraction(1)
            if isinstance(scale, NumberScale):
                steps = abs(place - here.index)
                cost = steps * scale.step / scale.sem if scale.sem else Fraction(steps)
            every[said(made, measure, to)] = (cost, outcome(made, name, found, measure, place, to), measure)
    return every


def said(made: Course, measure: str, to: Value) -> str:
    return sentences.named(ENGLISH, made, measure, to)


def outcome(made: Course, name: str, found: Found, measure: str, place: int, to: Value) -> str | None:
    return decide(made, found.renewed(Found({measure: Recorded(place, to, 1)})))[name].outcome


@settings(max_examples=100)
@given(st.integers(0, 2**40))
def test_the_key_is_the_cheapest_of_all_changes_and_every_other_option_changes_nothing(seed: int) -> None:
    random = Random(seed)
    made = random_course(random)
    client = random.choice(list(everyone(made)))
    made = replace(made, cases={"k": Case("k", Client("Wren"), as_readings(made, client))})
    now = decide(made, find(made, made.cases["k"].readings))
    for name in made.tables:
        every = changes(made, name) if now[name].outcome else {}
        turning = sorted(
            (cost, there, measure)
            for cost, there, measure in every.values()
            if there not in (None, now[name].outcome)
        )
        item = asked(made, name)
        if item is None:
            continue
        key, *wrong = texts(item)
        assert every[key] == turning[0]
        assert 2 <= len(wrong) <= 3
        assert {every[text][1] for text in wrong} == {now[name].outcome}
        options = {option.text: option.why for option in item.options}
        assert options[key] == ""
        assert all(options[text].startswith("The answer stays: ") for text in wrong)
        assert f"With {key} the answer becomes: " in item.why
        assert made.tables[name].outcomes[turning[0][1] or ""].label in item.why


@settings(max_examples=80)
@given(st.integers(0, 2**40))
def test_there_is_a_question_wherever_findings_allow_one(seed: int) -> None:
    """Of choices and answers every change is weighed."""
    random = Random(seed)
    made = random_course(random)
    made = replace(
        made, cautions={}, cases={"k": Case("k", Client("W"), as_readings(made, next(everyone(made))))}
    )
    now = decide(made, find(made, made.cases["k"].readings))
    for name in made.tables:
        if now[name].outcome is None:
            assert asked(made, name) is None
            continue
        every = changes(made, name)
        plain = [one for one in every.values() if not isinstance(made.measures[one[2]].scale, NumberScale)]
        turns = any(there not in (None, now[name].outcome) for _, there, _ in every.values())
        if turns and sum(there == now[name].outcome for _, there, _ in plain) >= 2:
            assert asked(made, name) is not None
        if not turns or sum(there == now[name].outcome for _, there, _ in every.values()) < 2:
            assert asked(made, name) is None


STANCE = choice("stance", "hip", "narrow", "wide", "split")
TURNED = table("t", "first", "stance", ("w", {"stance": AnyOf(("wide",))}, "no"), ("r", {}, "yes"))


@pytest.mark.parametrize(("values", "wrong"), [("hip wide", None), ("hip wide a", None), ("hip wide a b", 2)])
def test_two_wrong_options_are_enough_and_one_is_not(values: str, wrong: int | None) -> None:
    made = with_client(course(choice("stance", *values.split()), TURNED), stance="hip")
    item = asked(made, "t")
    assert (item is None) if wrong is None else (len(texts(item)) == 1 + wrong)


def test_never_more_than_three_wrong_options() -> None:
    many = choice("stance", "hip", "wide", *"abcdefg")
    assert len(texts(asked(with_client(course(many, TURNED), stance="hip"), "t"))) == 4


ANGLE = number("angle", 0, 60, 2, unit="deg", sem=5)
STIFF = table(
    "t", "first", "angle pain stance",
    ("low", {"angle": band(below=30)}, "stiff"),
    ("hurt", {"pain": Is(True), "angle": band(at_least=50)}, "hurt"),
    ("rest", {}, "free"),
)  # fmt: skip


def test_the_wrong_options_come_near_the_key_and_from_every_other_measure() -> None:
    """Free at 34: 28 is the key; 30, just short of the line, is nearest to it. One comes from each other
    measure, and there is no room for more."""
    made = with_client(
        course(ANGLE, yes_no("pain"), choice("stance", "hip", "wide"), STIFF),
        angle=34,
        pain=False,
        stance="hip",
    )
    assert texts(asked(made, "t")) == ["Angle: 28°", "Angle: 30°", "Pain: yes", "Stance: Wide"]


def test_of_another_number_the_cheapest_change_that_keeps_the_answer_is_offered() -> None:
    """Lines of `other` lie at 20 and 30: of the steps around them the nearest to 23 is 22."""
    turns = table(
        "t", "first", "angle other",
        ("low", {"angle": band(below=30)}, "stiff"),
        ("both", {"angle": band(above=58), "other": band(at_least=20, below=30)}, "odd"),
        ("rest", {}, "free"),
    )  # fmt: skip
    made = with_client(course(ANGLE, number("other", 0, 60), turns), angle=30, other=23)
    key, *wrong = texts(asked(made, "t"))
    assert key == "Angle: 28°"
    assert "Other: 22" in wrong, "one step, being the error where there is none"
    assert "Angle: 32°" in wrong


def test_a_number_without_a_line_near_it_is_moved_by_two_errors() -> None:
    """Two errors of 5 are ten; on a grid of even numbers ten up and ten down."""
    turns = table("t", "first", "stance angle", ("w", {"stance": AnyOf(("wide",))}, "no"), ("r", {}, "yes"))
    made = with_client(course(ANGLE, choice("stance", "hip", "wide"), turns), stance="hip", angle=30)
    assert texts(asked(made, "t")) == ["Stance: Wide", "Angle: 20°", "Angle: 40°"]
    odd = replace(ANGLE, scale=replace(ANGLE.scale, sem=Fraction(11, 2)))  # type: ignore[arg-type]
    made = with_client(course(odd, choice("stance", "hip", "wide"), turns), stance="hip", angle=30)
    assert texts(asked(made, "t")) == ["Stance: Wide", "Angle: 18°", "Angle: 42°"], "to the step beyond"
    certain = replace(ANGLE, scale=replace(ANGLE.scale, sem=Fraction(0)))  # type: ignore[arg-type]
    made = with_client(course(certain, choice("stance", "hip", "wide"), turns), stance="hip", angle=30)
    assert texts(asked(made, "t")) == ["Stance: Wide", "Angle: 28°", "Angle: 32°"], "by a step at least"
    made = with_client(course(ANGLE, choice("stance", "hip", "wide"), turns), stance="hip", angle=0)
    assert asked(made, "t") is None, "nothing lies below the domain"


def test_what_a_referral_reads_is_changed_only_for_a_table_that_reads_it() -> None:
    """`screen` reads the pain, `plan` only what the screen comes to."""
    screen = table("screen", "first", "pain", ("y", {"pain": Is(True)}, "stop"), ("n", {}, "go"))
    plan = table(
        "plan", "first", "screen stance",
        ("s", {"screen": AnyOf(("stop",))}, "none"),
        ("w", {"stance": AnyOf(("wide",))}, "step"),
        ("r", {}, "squat"),
    )  # fmt: skip
    made = with_client(course(yes_no("pain"), STANCE, screen, plan), pain=False, stance="hip")
    assert texts(asked(made, "plan"))[0] == "Pain: yes", "the first outcome by name of those that cost 1"
    for level, key in (("refer", "Stance: Wide"), ("urgent", "Stance: Wide"), ("adapt", "Pain: yes")):
        caution = Caution("c", "C", level, ({"pain": Is(True)},), "")  # type: ignore[arg-type]
        assert texts(asked(replace(made, cautions={"c": caution}), "plan"))[0] == key
    item = asked(made, "plan")
    assert item is not None
    assert item.stem == (
        "Wren: What about plan?\n\nThe answer is: Squat. Which one of these findings, all else as it is, "
        "would change it?"
    )
    assert item.why == "With Pain: yes the answer becomes: None."
    assert (item.table, item.case, item.family, item.kind, item.objective) == ("plan", "k", "g", "one", "o")


def test_a_number_is_changed_though_a_referral_reads_it_and_down_to_its_first_step() -> None:
    screen = table("screen", "first", "angle", ("low", {"angle": band(below=1)}, "stop"), ("n", {}, "go"))
    plan = table("plan", "first", "screen", ("s", {"screen": AnyOf(("stop",))}, "none"), ("r", {}, "squat"))
    caution = Caution("c", "C", "refer", ({"angle": band(below=20)},), "")
    made = with_client(course(ANGLE, screen, plan, caution), angle=10)
    assert texts(asked(made, "plan"))[0] == "Angle: 0°"


def test_whoever_is_sent_on_before_is_not_asked_about_unless_this_table_sends_on_too() -> None:
    ends: Mapping[str, Outcome] = {"stop": Outcome("stop", "Stop", ends=True), "go": Outcome("go", "Go")}
    screen = replace(
        table("a", "first", "pain", ("y", {"pain": Is(True)}, "stop"), ("n", {}, "go")), outcomes=ends
    )
    made = course(yes_no("pain"), STANCE, screen, TURNED)
    assert asked(with_client(made, pain=False, stance="hip"), "t") is not None
    assert asked(with_client(made, pain=True, stance="hip"), "t") is None
    also = replace(TURNED, outcomes={"yes": Outcome("yes", "Yes", ends=True), "no": Outcome("no", "No")})
    made = course(yes_no("pain"), STANCE, screen, also)
    assert asked(with_client(made, pain=True, stance="hip"), "t") is not None
    assert asked(with_client(made, pain=True, stance="wide"), "t") is None


def test_ties_go_to_the_outcome_and_then_the_measure_first_by_name() -> None:
    both = table(
        "t", "first", "b a c",
        ("one", {"a": Is(True)}, "x"), ("two", {"b": Is(True)}, "x"), ("three", {"c": Is(True)}, "w"),
        ("r", {}, "y"),
    )  # fmt: skip
    made = course(
        yes_no("a"), yes_no("b"), yes_no("c"), STANCE, replace(both, inputs=("b", "a", "c", "stance"))
    )
    item = asked(with_client(made, a=False, b=False, c=False, stance="hip"), "t")
    assert texts(item)[0] == "C: yes"
    made = replace(made, tables={"t": replace(made.tables["t"], rules=(*both.rules[:2], both.rules[3]))})
    assert texts(asked(with_client(made, a=False, b=False, c=False, stance="hip"), "t"))[0] == "A: yes"
