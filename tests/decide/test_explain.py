from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from builder.course import Rule
from builder.decide.explain import explain
from builder.decide.found import find

from .courses import band, course, number, read, table
from .test_evaluate import ANKLE, CLASS, PAIN, PLAN

COURSE = course(ANKLE, PAIN, CLASS, PLAN)


def test_each_condition_stands_beside_what_was_found():
    first, then = explain(COURSE, find(COURSE, read(ankle=32, pain=False)))
    (check,) = first.checks
    assert (check.input, check.found, check.holds) == ("ankle", 32, True)
    assert [(check.input, check.found) for check in then.checks] == [("class", "stiff")]


def test_other_rules_say_what_fails_or_that_they_match_too():
    first, then = explain(COURSE, find(COURSE, read(ankle=32, pain=False)))
    (other,) = first.others
    assert (other.rule.id, [check.input for check in other.failed]) == ("enough", ["ankle"])
    assert [(other.rule.id, [check.input for check in other.failed]) for other in then.others] == [
        ("hurts", ["pain"]), ("rest", []),
    ]  # fmt: skip


def test_the_source_is_the_rules_own_or_the_tables():
    rules = (Rule("low", {}, "stiff", because="So.", source="rule-source"),)
    own = replace(CLASS, rules=rules, source="table-source")
    (found,) = explain(course(ANKLE, own), find(course(ANKLE, own), read(ankle=1)))
    assert (found.because, found.source) == ("So.", "rule-source")
    (found,) = explain(
        course(ANKLE, replace(CLASS, source="table-source")),
        find(course(ANKLE, replace(CLASS, source="table-source")), read(ankle=1)),
    )
    assert (found.because, found.source) == (None, "table-source")


def test_what_is_not_decided_is_explained_too():
    holed = table("class", "unique", "ankle", ("low", {"ankle": band(below=35)}, "stiff"))
    gap, unreached = explain(
        course(ANKLE, PAIN, holed, PLAN), find(course(ANKLE, PAIN, holed, PLAN), read(ankle=40, pain=True))
    )
    assert (gap.decision.state, gap.checks, len(gap.others)) == ("gap", (), 1)
    assert (unreached.decision.state, unreached.checks, unreached.others) == ("not_reached", (), ())


def test_a_condition_on_what_is_no_input_is_told_last():
    one = table("t", "first", "b", ("r", {"a": band(above=1), "b": band(above=1)}, "x"), ("s", {}, "y"))
    made = course(number("a", 0, 9), number("b", 0, 9), one)
    (found,) = explain(made, find(made, read(a=5, b=5)))
    assert [check.input for check in found.checks] == ["b", "a"]
    (found,) = explain(made, find(made, read(b=5)))
    (other,) = found.others
    assert [(check.input, check.found) for check in other.failed] == [("a", None)]


def test_an_explanation_is_compared_and_shown_by_what_it_says():
    first, _ = explain(COURSE, find(COURSE, read(ankle=32, pain=False)))
    bare = replace(first, table=None, found={})
    assert first == bare
    assert repr(first) == repr(bare)
    assert first != replace(first, because="Another reason.")


def test_conditions_stand_in_the_order_of_the_inputs():
    both = table("t", "unique", "b a", ("r", {"a": band(above=1), "b": band(above=1)}, "x"))
    (found,) = explain(
        course(number("a", 0, 9), number("b", 0, 9), both),
        find(course(number("a", 0, 9), number("b", 0, 9), both), read(a=5, b=5)),
    )
    assert [check.input for check in found.checks] == ["b", "a"]


@given(st.integers(0, 60), st.booleans())
def test_checks_of_the_rule_that_counts_all_hold_and_those_that_failed_do_not(ankle: int, pain: bool):
    for found in explain(COURSE, find(COURSE, read(ankle=ankle, pain=pain))):
        assert all(check.holds for check in found.checks)
        assert not any(check.holds for other in found.others for check in other.failed)
        told = {found.decision.rule.id, *(other.rule.id for other in found.others)}
        assert told == {rule.id for rule in COURSE.tables[found.decision.table].rules}
        assert {other.rule.id for other in found.others if not other.failed} == set(
            found.decision.matched
        ) - {found.decision.rule.id}
