from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.course import AnyOf, Band, Caution, Is, Reading
from builder.decide.evaluate import decide, holds, meets, met
from builder.decide.found import find
from builder.decide.grid import size, value

from .courses import band, choice, course, number, read, table, yes_no

ANKLE = number("ankle", 0, 60)
PAIN = yes_no("pain")
CLASS = table(
    "class", "unique", "ankle",
    ("low", {"ankle": band(below=35)}, "stiff"),
    ("enough", {"ankle": band(at_least=35)}, "free"),
)  # fmt: skip
PLAN = table(
    "plan", "first", "class pain",
    ("hurts", {"pain": Is(True)}, "refer"),
    ("stiff", {"class": AnyOf(("stiff",))}, "wedge"),
    ("rest", {}, "squat"),
)  # fmt: skip


def test_tables_feed_tables():
    decided = decide(
        course(ANKLE, PAIN, CLASS, PLAN),
        find(course(ANKLE, PAIN, CLASS, PLAN), read(ankle=[31, 33, 32], pain=False)),
    )
    assert list(decided) == ["class", "plan"]
    assert (decided["class"].outcome, decided["class"].rule.id) == ("stiff", "low")
    assert (decided["plan"].outcome, decided["plan"].matched) == ("wedge", ("stiff", "rest"))


def test_the_topmost_match_wins_under_first():
    decided = decide(
        course(ANKLE, PAIN, CLASS, PLAN), find(course(ANKLE, PAIN, CLASS, PLAN), read(ankle=32, pain=True))
    )
    assert decided["plan"].rule.id == "hurts"
    assert decided["plan"].matched == ("hurts", "stiff", "rest")


def test_a_missing_reading_leaves_its_tables_unreached():
    decided = decide(
        course(ANKLE, PAIN, CLASS, PLAN), find(course(ANKLE, PAIN, CLASS, PLAN), read(pain=False))
    )
    assert (decided["class"].state, decided["class"].missing) == ("not_reached", ("ankle",))
    assert (decided["plan"].state, decided["plan"].missing) == ("not_reached", ("class",))
    assert decided["plan"].outcome is None


def test_a_reading_off_the_grid_counts_as_missing():
    decided = decide(course(ANKLE, CLASS), find(course(ANKLE, CLASS), read(ankle="32.5")))
    assert decided["class"].missing == ("ankle",)


def test_a_gap_stops_later_tables():
    holed = table("class", "unique", "ankle", ("low", {"ankle": band(below=35)}, "stiff"))
    decided = decide(
        course(ANKLE, PAIN, holed, PLAN), find(course(ANKLE, PAIN, holed, PLAN), read(ankle=40, pain=False))
    )
    assert (decided["class"].state, decided["plan"].state) == ("gap", "not_reached")


def test_two_matches_of_a_unique_table_decide_nothing():
    doubled = table("class", "unique", "ankle", ("a", {}, "free"), ("b", {"ankle": band(at_most=40)}, "free"))
    decision = decide(course(ANKLE, doubled), find(course(ANKLE, doubled), read(ankle=40)))["class"]
    assert (decision.state, decision.outcome, decision.rule) == ("overlap", None, None)
    assert decision.matched == ("a", "b")


def test_tables_in_a_circle_come_last_and_are_not_reached():
    one = table("one", "first", "two", ("all", {}, "x"))
    two = table("two", "first", "one", ("all", {}, "x"))
    decided = decide(course(ANKLE, one, two, CLASS), find(course(ANKLE, one, two, CLASS), read(ankle=40)))
    assert [(d.table, d.state) for d in decided.values()] == [
        ("class", "decided"), ("one", "not_reached"), ("two", "not_reached"),
    ]  # fmt: skip


def test_an_empty_when_matches_everyone():
    assert (
        decide(
            course(table("t", "unique", "", ("all", {}, "x"))),
            find(course(table("t", "unique", "", ("all", {}, "x"))), {}),
        )["t"].outcome
        == "x"
    )


@pytest.mark.parametrize(
    ("condition", "found", "expected"),
    [
        (band(at_least=35), Fraction(35), True),
        (band(above=35), Fraction(35), False),
        (band(at_most=35), Fraction(35), True),
        (band(below=35), Fraction(35), False),
        (band(at_least=30, below=35), Fraction(30), True),
        (band(at_least=30, below=35), Fraction(35), False),
        (band(at_least="0.3"), Fraction(1, 10) + Fraction(2, 10), True),
        (AnyOf(("a", "b")), "b", True),
        (AnyOf(("a", "b")), "c", False),
        (Is(True), True, True),
        (Is(False), True, False),
        (Is(True), Fraction(1), False),
        (band(at_least=0), True, False),
        (band(at_least=0), "a", False),
        (AnyOf(("true",)), True, False),
    ],
)
def test_conditions(condition, found, expected: bool):
    assert holds(condition, found) is expected


def test_a_caution_is_met_by_any_one_of_its_sets():
    caution = Caution(
        "c", "C", "refer", ({"pain": Is(True)}, {"ankle": band(below=10), "pain": Is(False)}), "Stop."
    )
    found = course(ANKLE, PAIN, caution)
    assert meets(caution, find(found, read(pain=True, ankle=40)))
    assert meets(caution, find(found, read(pain=False, ankle=9)))
    assert not meets(caution, find(found, read(pain=False, ankle=10)))
    assert met(found, find(found, read(pain=True))) == (caution,)
    assert not meets(caution, find(found, {}))


def test_cautions_that_are_met_come_by_name():
    several = [Caution(name, "C", "adapt", ({"pain": Is(True)},), "") for name in "cab"]
    made = course(PAIN, *several)
    assert [one.name for one in met(made, find(made, read(pain=True)))] == ["a", "b", "c"]
    assert met(made, find(made, read(pain=False))) == ()


@st.composite
def rule_sets(draw):
    """A table over three inputs, with any conditions."""
    cut = st.integers(-1, 7).map(Fraction)
    conditions = {
        "n": st.dictionaries(
            st.sampled_from(["at_least", "above", "at_most", "below"]), cut, min_size=1, max_size=2
        ).map(Band),
        "c": st.sets(st.sampled_from(["p", "q", "r"]), min_size=1).map(
            lambda names: AnyOf(tuple(sorted(names)))
        ),
        "y": st.booleans().map(Is),
    }
    rules = draw(st.lists(st.fixed_dictionaries({}, optional=conditions), min_size=1, max_size=6))
    policy = draw(st.sampled_from(["unique", "first"]))
    named = [(f"r{at}", when, draw(st.sampled_from(["x", "y"]))) for at, when in enumerate(rules)]
    return table("t", policy, "n c y", *named)


OPERATORS = {
    "at_least": lambda number, cut: number >= cut,
    "above": lambda number, cut: number > cut,
    "at_most": lambda number, cut: number <= cut,
    "below": lambda number, cut: number < cut,
}


def plainly(when, client: dict[str, object]) -> bool:
    """What a rule says, straight from its definition."""
    for name, condition in when.items():
        found = client[name]
        if isinstance(condition, Band):
            if not all(OPERATORS[bound](found, cut) for bound, cut in condition.bounds.items()):
                return False
        elif isinstance(condition, AnyOf):
            if found not in condition.names:
                return False
        elif found is not condition.answer:
            return False
    return True


@given(rule_sets())
@settings(max_examples=150)
def test_every_client_matches_exactly_what_brute_force_says(rules):
    measures = [number("n", 0, 6), choice("c", "p", "q", "r"), yes_no("y")]
    found = course(*measures, rules)
    for places in product(*(range(size(measure)) for measure in measures)):
        client = {measure.name: value(measure, at) for measure, at in zip(measures, places, strict=True)}
        expected = [rule for rule in rules.rules if plainly(rule.when, client)]
        readings = {
            name: Reading((one,)) if isinstance(one, Fraction) else Reading(finding=one)
            for name, one in client.items()
        }
        decision = decide(found, find(found, readings))["t"]
        assert decision.matched == tuple(rule.id for rule in expected)
        if not expected:
            assert decision.state == "gap"
        elif rules.policy == "unique" and len(expected) > 1:
            assert decision.state == "overlap"
        else:
            assert (decision.state, decision.outcome) == ("decided", expected[0].then)
            assert decision.rule is expected[0]
