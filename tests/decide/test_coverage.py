"""What no client reaches."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.answers import Answers
from builder.course import Case, Caution, Client, Course, Is
from builder.decide.coverage import RuleLeft

from .courses import band, course, number, read, table, yes_no

yes = Is(True)


def covered(*clients: dict[str, object]) -> Course:
    made = course(
        number("ankle", 0, 60, unit="deg", sem=2),
        yes_no("pain"),
        table(
            "class",
            "first",
            "ankle pain",
            ("hurt", {"pain": yes}, "stop"),
            ("low", {"ankle": band(below=35)}, "stiff"),
            ("lower", {"ankle": band(below=20)}, "stiff"),
            ("rest", {}, "free"),
        ),
        Caution("sore", "Sore", "refer", ({"pain": yes}, {"ankle": band(below=10)}), ""),
    )
    cases = {f"k{n}": Case(f"k{n}", Client(f"K{n}"), read(**readings)) for n, readings in enumerate(clients)}
    return Course(made.about, made.measures, tables=made.tables, cautions=made.cautions, cases=cases)


def test_what_no_client_reaches_is_listed() -> None:
    found = Answers(covered({"ankle": 33, "pain": False}, {"ankle": 36, "pain": False})).coverage
    assert found.clients == 2
    assert found.rules == (RuleLeft("class", "hurt", True), RuleLeft("class", "lower", False))
    assert found.outcomes == (("class", "stop"),)
    assert found.cautions == ("sore",)


def test_the_nearest_client_to_each_line() -> None:
    found = Answers(
        covered({"ankle": [33, 33, 33, 33], "pain": False}, {"ankle": 37, "pain": False})
    ).coverage
    lines = {line.at: line for line in found.lines}
    assert sorted(lines) == [Fraction(19, 2), Fraction(39, 2), Fraction(69, 2)]
    near = lines[Fraction(69, 2)]
    assert (near.nearest, near.distance, near.reached, near.drawn_by) == (
        "k0",
        Fraction(3, 2),
        True,
        ("class",),
    )
    assert near.errors == pytest.approx(1.5)
    far = lines[Fraction(19, 2)]
    assert (far.nearest, far.distance, far.reached, far.drawn_by) == ("k0", Fraction(47, 2), False, ("sore",))


def test_without_clients_nothing_is_reached() -> None:
    found = Answers(covered()).coverage
    assert len(found.rules) == 4
    assert all(line.nearest is None and not line.reached for line in found.lines)
