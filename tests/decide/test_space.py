"""Cells, and what is well-formed."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from builder.course import AnyOf, Caution, Is, Measure, NumberScale
from builder.decide.doubt import chances
from builder.decide.found import find
from builder.decide.proofs import prove
from builder.decide.space import Space

from .courses import band, choice, course, number, read, table, yes_no


def cells(space: Space, name: str) -> list[list[int]]:
    return [list(cell) for cell in space.axes[name].cells]


def test_cells_are_the_longest_runs_that_nothing_tells_apart() -> None:
    made = course(
        number("a", 0, 9),
        choice("c", "v", "w", "x", "y"),
        table("t", "first", "a c", ("r", {"a": band(at_least=2, above=4), "c": AnyOf(("w", "y"))}, "o")),
        Caution("k", "K", "refer", ({"a": band(below=8)},), ""),
    )
    space = Space(made)
    assert cells(space, "a") == [[0, 1, 2, 3, 4], [5, 6, 7], [8, 9]]
    assert cells(space, "c") == [[0, 2], [1, 3]]
    assert [space.axes["a"].line(n) for n in (1, 2)] == [Fraction(9, 2), Fraction(15, 2)]


def test_a_fine_grid_costs_no_more_than_a_coarse_one() -> None:
    made = course(
        number("a", 0, 1_000_000, "0.000001"),
        table(
            "t",
            "unique",
            "a",
            ("low", {"a": band(below="0.5")}, "x"),
            ("high", {"a": band(above="0.5")}, "y"),
        ),
    )
    (gap,) = prove(Space(made))
    assert gap.code == "table-gap"
    assert gap.client == {"a": 500_000}


def test_a_grid_beyond_all_measure_is_no_trouble() -> None:
    made = course(
        number("a", 0, 10**15, Fraction(1, 10**15), sem=1),
        table("t", "unique", "a", ("low", {"a": band(below=1)}, "x"), ("high", {"a": band(above=1)}, "y")),
    )
    space = Space(made)
    (gap,) = prove(space)
    assert gap.client == {"a": 10**15}
    assert chances(space, find(space.course, read(a=3)))["t"].chance["y"] == pytest.approx(
        0.97725 / 0.99865, abs=1e-4
    )


def test_a_demand_for_an_unknown_outcome_is_not_held_against_the_table() -> None:
    pain = Caution("k", "K", "refer", ({"p": Is(True)},), "", demands={"t": ("sendd",)})
    made = course(
        yes_no("p"), table("t", "first", "p", ("r", {"p": Is(True)}, "send"), ("s", {}, "go")), pain
    )
    assert prove(Space(made)) == ()


def test_cuts_between_steps_and_outside_the_domain() -> None:
    made = course(
        number("a", 0, 3),
        table(
            "t", "unique", "a", ("low", {"a": band(at_most="1.5")}, "x"), ("high", {"a": band(above=-7)}, "y")
        ),
    )
    assert cells(Space(made), "a") == [[0, 1], [2, 3]]


def test_only_what_is_well_formed_is_proved() -> None:
    a, low = number("a", 0, 9), ("low", {"a": band(below=5)}, "x")
    flawed = {
        "unknown input": table("t", "first", "a missing", low),
        "unknown condition": table("t", "first", "a", ("low", {"b": band(below=5)}, "x")),
        "wrong kind": table("t", "first", "a", ("low", {"a": Is(True)}, "x")),
        "unknown outcome": replace(table("t", "first", "a", low), outcomes={}),
        "itself": table("t", "first", "a t", low),
    }
    for told, one in flawed.items():
        assert not Space(course(a, one)).tables, told
    second = table("u", "first", "a", low)
    for told, one in flawed.items():
        space = Space(course(a, one, second))
        assert list(space.tables) == ["u"], told
        assert [finding.code for finding in prove(space)] == ["table-gap"], told


def test_a_table_that_reads_a_flawed_one_is_left_out() -> None:
    made = course(
        number("a", 0, 9),
        table("t", "first", "a missing", ("low", {"a": band(below=5)}, "x")),
        table("u", "first", "t", ("any", {}, "y")),
    )
    assert prove(Space(made)) == ()


def test_tables_in_a_circle_are_left_out() -> None:
    made = course(
        yes_no("p"),
        table("t", "first", "u", ("any", {}, "x")),
        table("u", "first", "t", ("any", {}, "x")),
        table("v", "first", "p", ("any", {}, "x")),
    )
    assert list(Space(made).tables) == ["v"]


def test_a_measure_without_a_domain_is_left_out() -> None:
    upside_down = Measure("a", "A", NumberScale("deg", Fraction(9), Fraction(0), Fraction(1), Fraction(0)))
    made = course(upside_down, table("t", "first", "a", ("any", {}, "x")))
    assert Space(made).tables == {}
    assert Space(made).client({}) == {}


def test_proofs_give_up_at_a_stated_amount_of_work_and_say_so() -> None:
    made = course(
        *(number(f"m{n}", 0, 9) for n in range(6)),
        table(
            "t",
            "first",
            " ".join(f"m{n}" for n in range(6)),
            *(
                (f"r{n}", {f"m{n % 6}": band(at_least=n % 9), f"m{(n + 1) % 6}": band(below=7)}, "x")
                for n in range(12)
            ),
        ),
        table("u", "first", "t", ("any", {}, "y")),
    )
    found = prove(Space(made, steps=5))
    assert [(one.code, one.table) for one in found] == [("proof-unfinished", "t"), ("proof-unfinished", "u")]
    assert found == prove(Space(made, steps=5))
    assert all(one.code != "proof-unfinished" for one in prove(Space(made)))
