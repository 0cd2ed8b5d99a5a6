"""What single rules of doubt, of nearest changes and of proofs tell apart."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise, permutations

import pytest
from scipy.stats import norm

from builder.course import AnyOf, Caution, Course, DecideStep, EndStep, Exercise, Is, NumberScale
from builder.decide.budget import Budget, Unfinished
from builder.decide.doubt import (
    QUANTILE,
    SURE_ENOUGH,
    chance,
    chance_of_meeting,
    likely,
    standard_error,
    variance,
)
from builder.decide.found import find
from builder.decide.near_lines import is_known_near, near_lines
from builder.decide.nearest import Change, nearest
from builder.decide.product_search import Factor, ProductSearch
from builder.decide.proofs import prove
from builder.decide.space import STEPS, Space, read_by_referrals

from .courses import band, choice, course, number, read, table, yes_no

F = Fraction


def test_the_constants_are_those_of_the_course_format() -> None:
    """1.96: the 0.975 quantile of the normal distribution, to two decimals."""
    assert float(QUANTILE) == round(norm.ppf(0.975), 2) == 1.96
    assert (SURE_ENOUGH, STEPS) == (0.8, 240_000)


def test_an_error_and_its_square_agree() -> None:
    for of in ("trial", "session"):
        scale = NumberScale("deg", F(0), F(9), F(1), F(3, 2), of)  # type: ignore[arg-type]
        for trials in (1, 2, 5):
            assert standard_error(scale, trials) ** 2 == pytest.approx(float(variance(scale, trials)))
    assert variance(NumberScale("", F(0), F(9), F(1), F(3)), 2) == F(9, 2)


def test_where_95_of_100_lie_stays_in_the_domain() -> None:
    scale = NumberScale("deg", F(0), F(60), F(2), F(3))
    assert likely(scale, F(30), 9) == pytest.approx((28.04, 31.96))
    assert likely(scale, F(0), 1) == pytest.approx((-1, 5.88))
    assert likely(scale, F(60), 1) == pytest.approx((54.12, 61))


@pytest.mark.parametrize("value", [0, 3, 29, 30, 31, 57, 60])
def test_tails_on_both_sides_keep_their_size(value: int) -> None:
    """Three cells; each chance by scipy, to a part in a million even far out."""
    made = course(
        number("a", 0, 60, sem=2),
        table(
            "t",
            "first",
            "a",
            ("l", {"a": band(below=20)}, "x"),
            ("m", {"a": band(below=41)}, "y"),
            ("r", {}, "z"),
        ),
    )
    found = chance(Space(made), find(made, read(a=value)), "t")
    edges = [-0.5, 19.5, 40.5, 60.5]
    z = [(edge - value) / 2 for edge in edges]
    parts = [
        norm.cdf(high) - norm.cdf(low) if low < 0 else norm.sf(low) - norm.sf(high)
        for low, high in pairwise(z)
    ]
    whole = math.fsum(parts)
    assert list(found.chance.values()) == pytest.approx(
        [part / whole for part in parts], rel=1e-6, abs=1e-300
    )
    assert found.undecided == 0


def corner() -> Course:
    """Only both numbers together turn the answer."""
    return course(
        number("a", 0, 20, sem=2),
        number("b", 0, 20, sem=4),
        number("c", 0, 20),
        table(
            "t", "first", "a b c",
            ("both", {"a": band(at_least=10), "b": band(at_least=12)}, "yes"),
            ("rest", {"c": band(below=18)}, "no"),
        ),
    )  # fmt: skip


def told(made: Course, **readings: object) -> list[tuple[str, Fraction, Fraction, str | None]]:
    found = near_lines(Space(made), find(made, read(**readings)), "t")
    return [(line.measure, line.at, line.distance, line.beyond) for line in found]


def test_where_no_number_alone_turns_the_answer_the_edges_of_its_cell_count() -> None:
    assert told(corner(), a=5, b=5, c=3) == [
        ("b", F(23, 2), F(13, 2), "no"),
        ("a", F(19, 2), F(9, 2), "no"),
    ]
    assert told(corner(), a=15, b=5, c=3) == [("b", F(23, 2), F(13, 2), "yes")]
    assert told(corner(), a=15, b=15, c=19) == [
        ("b", F(23, 2), F(7, 2), None),
        ("a", F(19, 2), F(11, 2), None),
    ]
    assert told(corner(), a=15, b=15) == [], "nothing is said where a reading is missing"


def test_lines_stand_by_errors_in_each_direction() -> None:
    made = course(
        number("a", 0, 20, sem=2),
        table(
            "t",
            "first",
            "a",
            ("l", {"a": band(below=4)}, "x"),
            ("m", {"a": band(below=12)}, "y"),
            ("r", {}, "x"),
        ),
    )
    assert told(made, a=10) == [("a", F(23, 2), F(3, 2), "x"), ("a", F(7, 2), F(13, 2), "x")]
    assert told(made, a=[4, 4, 4, 4]) == [("a", F(7, 2), F(1, 2), "x"), ("a", F(23, 2), F(15, 2), "x")]
    (first, *_) = near_lines(Space(made), find(made, read(a=[4, 4, 4, 4])), "t")
    assert first.errors == 0.5
    assert told(made, a=2) == [("a", F(7, 2), F(3, 2), "y")]


def test_near_cut_names_the_nearest_line_or_none() -> None:
    made = corner()
    space, found = Space(made), find(made, read(a=15, b=13, c=3))
    assert told(made, a=15, b=13, c=3)[0][0] == "b"
    assert is_known_near(space, found, "t", ("b",))
    assert not is_known_near(space, found, "t", ("a",))
    assert is_known_near(space, found, "t", ("a", "b"))
    assert not is_known_near(space, found, "t", ())
    assert not is_known_near(space, find(made, read(a=15)), "t", ("a",))


def test_the_chance_of_meeting_needs_every_reading_that_is_asked_for() -> None:
    made = course(
        number("a", 0, 60, sem=2), yes_no("p"),
        Caution("k", "K", "refer", ({"a": band(below=20)}, {"p": Is(True)}), ""),
    )  # fmt: skip
    space = Space(made)
    assert chance_of_meeting(space, find(made, read(a=40)), "k") is None
    assert chance_of_meeting(space, find(made, read(a=40, p=True)), "k") == 1
    assert chance_of_meeting(space, find(made, read(a=20, p=False)), "k") == pytest.approx(norm.cdf(-0.25))
    assert chance_of_meeting(Space(made, 0), find(made, read(a=20, p=False)), "k") is None


# nearest changes


def test_the_cheapest_changes_to_every_other_outcome_in_order() -> None:
    made = course(
        number("a", 0, 20, "0.5", sem=2),
        number("n", 0, 20),
        choice("c", "u", "w", "v"),
        yes_no("p"),
        table(
            "t", "first", "a n c p",
            ("v", {"c": AnyOf(("v", "w"))}, "z"),
            ("p", {"p": Is(True), "a": band(above=5)}, "y"),
            ("n", {"n": band(at_least=3)}, "x"),
            ("rest", {}, "w"),
        ),
    )  # fmt: skip
    found = find(made, read(a=4, n=2, c="u", p=False))
    assert nearest(Space(made), found, "t") == (
        Change("x", F(1), {"n": (2, 3)}),
        Change("z", F(1), {"c": ("u", "v")}),
        Change("z", F(1), {"c": ("u", "w")}),
        Change("y", F(7, 4), {"a": (4, F(11, 2)), "p": (False, True)}),
    )
    assert nearest(Space(made), find(made, read(a=4, n=2, c="u")), "t") == ()
    assert nearest(Space(made, 0), found, "t") == ()


@pytest.mark.parametrize("names", list(permutations("abc")))
def test_a_tie_that_is_found_late_is_told_too(names: tuple[str, str, str]) -> None:
    """In whatever order the measures are asked: one answer turns it at once, another once the third is
    known."""
    once, late, third = names
    asks = table(
        "t", "first", " ".join(names),
        ("once", {once: Is(True)}, "x"), ("late", {late: Is(True), third: Is(False)}, "x"), ("rest", {}, "y"),
    )  # fmt: skip
    made = course(*(yes_no(name) for name in "abc"), asks)
    assert nearest(Space(made), find(made, read(a=False, b=False, c=False)), "t") == tuple(
        Change("x", F(1), {name: (False, True)}) for name in sorted((once, late))
    )


def test_downwards_the_last_step_below_a_line_is_taken() -> None:
    made = course(
        number("a", 0, 20, sem=3),
        table(
            "t",
            "first",
            "a",
            ("l", {"a": band(below=4)}, "x"),
            ("m", {"a": band(below=9)}, "y"),
            ("r", {}, "z"),
        ),
    )
    assert nearest(Space(made), find(made, read(a=12)), "t") == (
        Change("y", F(4, 3), {"a": (12, 8)}),
        Change("x", F(3), {"a": (12, 3)}),
    )


def test_what_referrals_read() -> None:
    made = course(
        *map(yes_no, "abcd"),
        Caution("r", "R", "refer", ({"a": Is(True)}, {"b": Is(True)}), ""),
        Caution("u", "U", "urgent", ({"b": Is(True), "c": Is(True)},), ""),
        Caution("w", "W", "adapt", ({"d": Is(True)},), ""),
    )
    assert read_by_referrals(made) == {"a", "b", "c"}


# proofs


def test_a_search_finds_one_client_for_each_result_and_spends_its_work() -> None:
    made = course(
        number("a", 0, 9), yes_no("p"),
        table("first", "first", "a", ("l", {"a": band(below=5)}, "x"), ("r", {}, "y")),
        table("t", "first", "first p", ("x", {"first": AnyOf(("x",)), "p": Is(True)}, "q"), ("r", {}, "s")),
    )  # fmt: skip
    space = Space(made)
    parts = [Factor(space.outcome("first"), space.slots["first"]), Factor(space.local("t").outcomes)]
    a, p = space.levels["a"], space.levels["p"]
    found = ProductSearch(space.diagrams, parts, Budget(100)).first(0b11)
    assert {result: set(cells) <= {a, p} for result, cells in found.items()} == {0: True, 1: True}
    assert found[0] == {a: 0, p: 1}
    assert ProductSearch(space.diagrams, parts, Budget(100)).first(0b01, {p: 0b01}) == {}
    assert ProductSearch(space.diagrams, parts, Budget(100)).first(0b01, {a: 0}) == {}
    assert ProductSearch(space.diagrams, parts, Budget(100)).first(0b100) == {}
    composed = ProductSearch(space.diagrams, parts, Budget(100)).composed()
    assert composed == space.outcome("t")
    budget = Budget(100)
    ProductSearch(space.diagrams, parts, budget).composed()
    assert 100 - budget.left == 2, "two states, each of a table and its feed"
    with pytest.raises(Unfinished):
        ProductSearch(space.diagrams, parts, Budget(1)).composed()
    with pytest.raises(ValueError, match="as it must"):
        _ = ProductSearch(space.diagrams, [Factor(~0, wanted=2), Factor(~1)], Budget(9)).start


def referring() -> Course:
    """Whoever has pain must stop; the table asks for the pain only of those below 5."""
    return course(
        number("a", 0, 9), yes_no("p"),
        table(
            "t", "first", "a p",
            ("low", {"a": band(below=5), "p": Is(True)}, "stop"), ("rest", {}, "go"), outcomes="go stop",
        ),
        Caution("k", "K", "refer", ({"p": Is(True)},), "", demands={"t": ("stop",)}),
    )  # fmt: skip


def test_a_breach_names_the_outcomes_and_all_who_show_it() -> None:
    (found,) = prove(Space(referring()))
    assert (found.code, found.table, found.caution, found.outcomes) == ("caution-breach", "t", "k", ("go",))
    assert found.client == {"a": 7, "p": 1}
    assert found.region is not None
    assert found.region.boxes == ({"a": (range(5, 10),), "p": (range(1, 2),)},)


def test_a_leak_is_told_where_somebody_ends_without_being_sent_on() -> None:
    steps = {
        "s": DecideStep("t", {"go": "end", "stop": "out"}),
        "end": EndStep("Done"),
        "out": EndStep("Out", sends_on=True),
    }
    made = replace(referring(), exercises={"e": Exercise("e", "E", "all", "s", steps)})
    leak = next(one for one in prove(Space(made)) if one.code == "referral-leak")
    assert (leak.exercise, leak.caution, leak.step, leak.client) == ("e", "k", "end", {"a": 7, "p": 1})
    assert leak.region is not None
    assert leak.region.boxes == ({"a": (range(5, 10),), "p": (range(1, 2),)},)
    sound = {**steps, "end": EndStep("Done", sends_on=True)}
    made = replace(made, exercises={"e": Exercise("e", "E", "all", "s", sound)})
    assert [one.code for one in prove(Space(made))] == ["caution-breach"]
    adapting = {"k": replace(made.cautions["k"], level="adapt", demands={})}
    assert prove(replace_cautions(made, adapting)) == ()


def test_a_demand_that_cannot_be_judged_hides_no_other() -> None:
    made = referring()
    (table,) = made.cautions["k"].demands
    demands = {"a-table-that-is-gone": ("x",), **made.cautions["k"].demands}
    both = replace(made, cautions={"k": replace(made.cautions["k"], demands=demands)})
    breaches = [one.table for one in prove(Space(made)) if one.code == "caution-breach"]
    assert breaches == [table]
    assert [one.table for one in prove(Space(both)) if one.code == "caution-breach"] == breaches


def test_leaks_are_told_in_the_order_of_names() -> None:
    leaking = {name: Exercise(name, name, "all", "end", {"end": EndStep("Done")}) for name in ("b", "c", "a")}
    found = prove(Space(replace(referring(), exercises=leaking)))
    assert [one.exercise for one in found if one.code == "referral-leak"] == ["a", "b", "c"]
    one = referring().cautions["k"]
    several = {name: replace(one, name=name) for name in ("m", "k", "l")}
    found = prove(Space(replace(referring(), exercises={"a": leaking["a"]}, cautions=several)))
    assert [(one.code, one.caution) for one in found] == [
        (code, name) for code in ("caution-breach", "referral-leak") for name in ("k", "l", "m")
    ]


def replace_cautions(made: Course, cautions: dict[str, Caution]) -> Space:
    return Space(replace(made, cautions=cautions))


def test_a_referral_that_demands_nothing_is_unproved() -> None:
    made = referring()
    for level, demands, codes in [
        ("refer", {}, ["referral-unproved"]),
        ("urgent", {"t": ()}, ["caution-breach", "referral-unproved"]),
        ("watch", {}, []),
        ("refer", {"gone": ("x",)}, []),
        ("refer", {"t": ("go", "stop")}, []),
    ]:
        changed = {"k": replace(made.cautions["k"], level=level, demands=demands)}  # type: ignore[arg-type]
        assert [one.code for one in prove(replace_cautions(made, changed))] == codes, (level, demands)


def test_all_regions_together_may_take_an_eighth_of_the_work_for_a_proof() -> None:
    """Who shows the fault takes 16 steps to tell; the fault itself stands without it."""
    for steps, is_told in ((8, False), (127, False), (128, True)):
        (found,) = prove(Space(referring(), steps))
        assert (found.region is not None) is is_told, steps
