"""Which drills a client's outcomes lead to, and whether a pause of the breath is allowed there."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from builder.answers import Answers
from builder.course import Breath, Course, Drill, Outcome, Phase, Rule

from ..exercises.exercises import case, course, table

LOW_ONE, LOW_TWO = {"one": ("low",)}, {"two": ("low",)}


def drill(name: str, leads: dict[str, tuple[str, ...]], pause: dict[str, tuple[str, ...]] | None) -> Drill:
    breath = None if pause is None else Breath(Fraction(4), Fraction(3), Fraction(2), pause)
    return Drill(name, name, ("Pain",), (Phase("p", "P", ("Cue",)),), leads_here=leads, breath=breath)


DRILLS = (
    drill("nobody", {}, LOW_ONE),
    drill("one", LOW_ONE, None),
    drill("any", {"one": ("high", "low"), "gone": ("low",)}, LOW_ONE | LOW_TWO),
    drill("either", LOW_ONE | LOW_TWO, LOW_TWO),
    drill("free", LOW_TWO, {}),
)


def made(**more: object) -> Course:
    """`one` is low below 3, `two` below 6."""
    tables = (table("one", 3), table("two", 6))
    return replace(course(*tables), drills={one.name: one for one in DRILLS}, **more)  # type: ignore[arg-type]


def fitting(of: Course, angle: int) -> dict[str, bool]:
    return dict(Answers(of).of(case(angle)).drills)


@pytest.mark.parametrize(
    ("angle", "drills"),
    [
        (2, {"one": False, "any": True, "either": True, "free": False}),
        (5, {"any": False, "either": True, "free": False}),
        (7, {"any": False}),
    ],
)
def test_one_outcome_leads_to_a_drill_and_all_named_allow_its_pause(
    angle: int, drills: dict[str, bool]
) -> None:
    assert fitting(made(), angle) == drills
    assert list(fitting(made(), angle)) == list(drills), "in file order"


def test_whoever_is_sent_on_does_no_drill() -> None:
    tables = made().tables
    ending = made(tables={**tables, "one": table("one", 3, ends=True)})
    assert fitting(ending, 2) == {}
    assert fitting(ending, 5) == fitting(made(), 5)


def test_a_table_without_an_outcome_of_its_own_leads_nowhere_and_stops_nobody() -> None:
    tables = made().tables
    lost = replace(tables["one"], outcomes={"high": Outcome("high", "High", ends=True)})
    assert fitting(made(tables={**tables, "one": lost}), 2) == fitting(made(), 2)
    twice = (*tables["one"].rules, Rule("again", {}, "low"))
    overlapping = replace(tables["one"], rules=twice)
    assert fitting(made(tables={**tables, "one": overlapping}), 2) == {"either": True, "free": False}
