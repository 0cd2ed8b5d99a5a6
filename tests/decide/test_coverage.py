"""What no client reaches."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from builder.answers import Answers
from builder.course import Case, Caution, Client, Course, Is
from builder.decide.coverage import LineCover, RuleLeft

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


def one_line(reading: object, sem: object, step: object = 2) -> LineCover:
    """One line between 48 and 50 of a grid of even numbers, so at 49, and one client."""
    made = course(
        number("a", 0, 100, step, sem=sem),
        table("t", "first", "a", ("low", {"a": band(below=50)}, "x"), ("rest", {}, "y")),
    )
    (line,) = Answers(with_cases(made, {"a": reading})).coverage.lines
    assert line.at == 49
    return line


def with_cases(made: Course, *clients: dict[str, object]) -> Course:
    cases = {f"k{n}": Case(f"k{n}", Client(f"K{n}"), read(**readings)) for n, readings in enumerate(clients)}
    return replace(made, cases=cases)


@pytest.mark.parametrize(
    ("reading", "sem", "reached"),
    [(0, 25, True), (98, 25, True), (0, "24.9", False), (0, 26, True), (48, 1, True), (46, 1, False)],
)
def test_a_line_is_reached_within_1_96_standard_errors(reading: int, sem: object, reached: bool) -> None:
    """The 95 % band of the normal distribution: 49 / 25 is 1.96 exactly."""
    line = one_line(reading, sem)
    assert line.errors == pytest.approx(float(abs(reading - 49) / Fraction(str(sem))))
    assert line.reached is reached


@pytest.mark.parametrize(("reading", "reached"), [(48, True), (50, True), (46, False), (52, False)])
def test_without_an_error_a_line_is_reached_on_the_step_beside_it(reading: int, reached: bool) -> None:
    line = one_line(reading, 0)
    assert (line.errors, line.reached) == (None, reached)


def test_the_nearest_is_the_first_by_name_where_several_are() -> None:
    made = course(
        yes_no("p"),
        number("a", 0, 100, 2),
        table("t", "first", "a", ("low", {"a": band(below=50)}, "x"), ("rest", {}, "y")),
    )
    clients = [{"a": 20}, {"a": 52}, {"a": 46}, {"p": True}, {"a": 47}]
    (line,) = Answers(with_cases(made, *clients)).coverage.lines
    assert (line.nearest, line.distance) == ("k1", 3), "unusable readings and none at all are passed over"


def test_a_line_names_all_that_draw_it_tables_before_cautions() -> None:
    made = course(
        number("a", 0, 100),
        table("u", "first", "a", ("low", {"a": band(at_most=49)}, "x"), ("rest", {}, "y")),
        table("t", "first", "a", ("mid", {"a": band(at_least=20, below=50)}, "x"), ("rest", {}, "y")),
        Caution("s", "S", "watch", ({"a": band(below=20)}, {"a": band(above=90)}), ""),
        pathway=("u", "t"),
    )
    lines = Answers(made).coverage.lines
    assert [(line.at, line.drawn_by) for line in lines] == [
        (Fraction(39, 2), ("t", "s")),
        (Fraction(99, 2), ("u", "t")),
        (Fraction(181, 2), ("s",)),
    ]


def test_what_decides_no_one_is_listed_in_order() -> None:
    made = covered({"ankle": 5, "pain": True})
    found = Answers(made).coverage
    assert [left.rule for left in found.rules] == ["low", "lower", "rest"]
    assert [left.possible for left in found.rules] == [True, False, True]
    assert found.outcomes == (("class", "stiff"), ("class", "free"))
    assert found.cautions == ()


def test_a_number_that_can_have_no_value_has_no_line() -> None:
    made = course(number("a", 9, 0), table("t", "first", "a", ("low", {"a": band(below=5)}, "x")))
    assert Answers(made).coverage.lines == ()
