"""Cells of one measure, against its single values."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course import AnyOf, Band, ChoiceScale, Condition, Is, Measure, NumberScale
from builder.decide.cells import Axis, axis
from builder.decide.evaluate import holds
from builder.decide.grid import size, value
from builder.decide.lines import drawn_lines
from builder.decide.well_formed import fits, has_domain

from .courses import band, choice, number, yes_no

ANGLE = number("a", "0.5", 6, "0.5")
STANCE = choice("c", "narrow", "hip", "wide", "split")
BOUNDS = ("at_least", "above", "at_most", "below")

bands = st.dictionaries(
    st.sampled_from(BOUNDS), st.integers(-2, 30).map(lambda n: Fraction(n, 4)), min_size=1
)
names = st.sets(st.sampled_from(list(STANCE.scale.values))).map(lambda some: AnyOf(tuple(sorted(some))))  # type: ignore[union-attr]


def laws(made: Axis, told: list[Condition]) -> None:
    """Cells share out the values; the conditions tell any two cells apart and no two values of one cell."""
    every = range(size(made.measure))
    assert sorted(index for cell in made.cells for index in cell) == list(every)
    signs = {index: tuple(holds(one, value(made.measure, index)) for one in told) for index in every}
    for at, cell in enumerate(made.cells):
        assert all(made.cell(index) == at for index in cell)
        assert {signs[index] for index in cell} == {signs[cell[0]]}
    for place, one in enumerate(told):
        assert made.admits(one) == sum(1 << at for at, cell in enumerate(made.cells) if signs[cell[0]][place])


@given(st.lists(bands.map(Band), max_size=4))
def test_cells_of_a_number(told: list[Condition]) -> None:
    made = axis(ANGLE, told)
    laws(made, told)
    for at in range(1, len(made.cells)):
        before, after = made.cells[at - 1], made.cells[at]
        assert before[-1] + 1 == after[0], "longest runs, in order"
        low, high = value(ANGLE, before[-1]), value(ANGLE, after[0])
        assert made.line(at) == (low + high) / 2  # type: ignore[operator]
        assert any(holds(one, low) != holds(one, high) for one in told), "no line that nothing draws"


@given(st.lists(names, max_size=4))
def test_cells_of_a_choice(told: list[Condition]) -> None:
    made = axis(STANCE, told)
    laws(made, told)
    firsts = [cell[0] for cell in made.cells]
    assert firsts == sorted(firsts)
    assert len({made.cell(index) for index in range(4)}) == len(made.cells)


def test_cells_of_an_answer() -> None:
    assert axis(yes_no("p"), []).cells == ((0, 1),)
    asked = axis(yes_no("p"), [Is(True)])
    assert (asked.cells, asked.admits(Is(True)), asked.admits(Is(False))) == (((0,), (1,)), 0b10, 0b01)


def test_the_cells_that_hold_some_values() -> None:
    made = axis(ANGLE, [band(below=2), band(at_least=4)])
    assert [(cell[0], cell[-1]) for cell in made.cells] == [(0, 2), (3, 6), (7, 11)]

    def holding(*values: object) -> int:
        return made.cells_of([Fraction(str(one)) for one in values])

    assert holding("0.5") == holding("1.5") == 0b001
    assert holding(2) == holding("3.5") == 0b010
    assert holding(4) == holding(6) == 0b100
    assert holding("1.5", 2) == 0b011
    assert holding("0.5", 6) == 0b111, "all between the first and the last"
    stance = axis(STANCE, [AnyOf(("narrow", "wide"))])
    assert stance.cells == ((0, 2), (1, 3))
    assert stance.cells_of(["wide"]) == 0b01
    assert stance.cells_of(["hip"]) == 0b10
    assert stance.cells_of(["hip", "narrow"]) == 0b11
    pain = axis(yes_no("p"), [Is(True)])
    assert (pain.cells_of([False]), pain.cells_of([True]), pain.cells_of([True, False])) == (1, 2, 3)


@pytest.mark.parametrize(
    ("condition", "measure", "fitting"),
    [
        (band(below=1), ANGLE, True),
        (band(below=1), STANCE, False),
        (AnyOf(("hip", "wide")), STANCE, True),
        (AnyOf(("hip", "knee")), STANCE, False),
        (AnyOf(("hip",)), ANGLE, False),
        (Is(False), yes_no("p"), True),
        (Is(True), ANGLE, False),
        (band(below=1), yes_no("p"), False),
    ],
)
def test_what_can_be_asked_of_a_measure(condition: Condition, measure: Measure, fitting: bool) -> None:
    assert fits(condition, measure) is fitting


def test_which_measures_have_a_domain() -> None:
    scale = ANGLE.scale
    assert isinstance(scale, NumberScale)
    for changed, there in [
        ({}, True),
        ({"stop": scale.start}, True),
        ({"stop": scale.start - 1}, False),
        ({"step": Fraction(0)}, False),
        ({"step": Fraction(-1)}, False),
        ({"sem": Fraction(-1)}, False),
        ({"sem": Fraction(0)}, True),
        ({"sem": Fraction(1, 2), "step": Fraction(1, 3)}, True),
    ]:
        assert has_domain(replace(ANGLE, scale=replace(scale, **changed))) is there, changed  # type: ignore[arg-type]
    assert has_domain(yes_no("p"))
    assert has_domain(choice("c", "one"))
    assert not has_domain(Measure("c", "C", ChoiceScale({})))


@pytest.mark.parametrize("bound", BOUNDS)
@given(st.integers(-2, 30), st.integers(-2, 30), st.integers(-2, 30))
def test_a_line_parts_two_numbers_of_which_its_bound_admits_one(
    bound: str, cut: int, one: int, other: int
) -> None:
    asked = band(**{bound: Fraction(cut, 4)})
    low, high = sorted((Fraction(one, 4), Fraction(other, 4)))
    assert isinstance(ANGLE.scale, NumberScale)
    (line,) = drawn_lines(ANGLE.scale, [asked])
    assert line.parts(low, high) == (holds(asked, low) != holds(asked, high))
