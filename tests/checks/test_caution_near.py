"""Clients whose readings lie near a caution, on the safe side of its line."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from scipy.stats import norm

from builder.answers import Answers
from builder.checks import CHECKS, Scope
from builder.course import (
    About,
    Band,
    Case,
    Caution,
    Client,
    Course,
    Is,
    Measure,
    NumberScale,
    Origin,
    Outcome,
    Place,
    Reading,
    Rule,
    Table,
    YesNoScale,
)

HEART = Measure(
    "heart", "Heart rate", NumberScale("bpm", Fraction(40), Fraction(200), Fraction(1), Fraction(5))
)
FAINT = Measure("faint", "Faint", YesNoScale())
FAST = Caution("fast", "Fast", "refer", ({"heart": Band({"above": Fraction(120)})},), "Send on.")


def table(*rules: Rule, ends: bool = False) -> Table:
    outcomes = {"stop": Outcome("stop", "Stop", ends), "go": Outcome("go", "Go")}
    return Table("screen", "Today?", "first", ("heart",), outcomes, rules or (Rule("all", {}, "go"),))


def course(heart: int, *tables: Table, caution: Caution = FAST, **readings: Reading) -> Course:
    case = Case("wren", Client("Wren"), {"heart": Reading((Fraction(heart),)), **readings})
    return Course(
        About("c", "C"),
        measures={"heart": HEART, "faint": FAINT},
        tables={one.name: one for one in tables or (table(),)},
        cautions={caution.name: caution},
        cases={"wren": case},
    )


def told(made: Course, **scope: object) -> list[str]:
    return [fault.message for fault in CHECKS["caution-near"](Scope(Answers(made), **scope))]  # type: ignore[arg-type]


@pytest.mark.parametrize("heart", [100, 110, 112, 113, 118, 120, 121, 130])
def test_it_warns_above_5_of_100(heart: int) -> None:
    """The true value lies normally around the reading; the line lies between 120 and 121."""
    chance = norm.sf((120.5 - heart) / 5)
    found = told(course(heart))
    assert len(found) == (chance > 0.05)
    if found:
        assert found[0].startswith(f"About {math.floor(100 * chance)} of 100 clients")
        assert "meet the caution fast" in found[0]


def test_what_is_certain_is_not_near() -> None:
    faint = replace(FAST, when=({"faint": Is(True)},))
    for answer in (True, False):
        assert told(course(60, caution=faint, faint=Reading(finding=answer))) == []
    assert told(course(60, caution=faint)) == [], "nor what is not read"


@pytest.mark.parametrize(("level", "warned"), [("urgent", 1), ("refer", 1), ("adapt", 0), ("watch", 0)])
def test_only_what_sends_on_is_warned_of(level: str, warned: int) -> None:
    assert len(told(course(118, caution=replace(FAST, level=level)))) == warned  # type: ignore[arg-type]


def test_who_is_sent_on_anyway_is_safe() -> None:
    stops = table(Rule("all", {}, "stop"), ends=True)
    assert told(course(118, stops)) == []
    elsewhere = replace(table(ends=True), rules=(Rule("all", {}, "go"),))
    assert len(told(course(118, elsewhere))) == 1


def test_who_ends_as_the_caution_demands_is_safe() -> None:
    stops = table(Rule("all", {}, "stop"))
    assert told(course(118, stops, caution=replace(FAST, demands={"screen": ("stop",)}))) == []
    assert len(told(course(118, stops, caution=replace(FAST, demands={"screen": ("go",)})))) == 1
    assert len(told(course(118, stops, caution=FAST))) == 1


def test_nothing_is_said_that_could_not_be_known() -> None:
    demands = replace(FAST, demands={"gone": ("stop",)})
    assert told(course(118, caution=demands)) == [], "a table that is not there may have stopped them"
    holed = table(Rule("slow", {"heart": Band({"below": Fraction(60)})}, "go"))
    assert told(course(118, holed, caution=replace(FAST, demands={"screen": ("stop",)}))) == []
    assert told(course(118), unread={"table": frozenset({"other"})}) == []
    assert len(told(course(118), unread={"quiz": frozenset({"other"})})) == 1


def test_the_place_is_the_first_reading_with_an_error() -> None:
    both = replace(FAST, when=({"faint": Is(False), "heart": Band({"above": Fraction(120)})},))
    made = course(118, caution=both, faint=Reading(finding=False))
    origin = Origin("wren.yml", {("readings", "faint"): (7, 3), ("readings", "heart"): (8, 3)})
    placed = replace(made, cases={"wren": replace(made.cases["wren"], origin=origin)})
    (fault,) = CHECKS["caution-near"](Scope(Answers(placed)))
    assert (fault.subject, fault.place) == ("case:wren", Place("wren.yml", 8, 3))
