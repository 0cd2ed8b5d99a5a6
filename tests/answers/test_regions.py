"""Sets of clients in words."""

from __future__ import annotations

import pytest

from builder.answers.regions import region_in_words
from builder.course import AnyOf, Is, Measure, YesNoScale
from builder.decide.budget import Budget
from builder.decide.diagram import YES
from builder.decide.regions import Region, region
from builder.decide.space import Space

from ..decide.courses import band
from ..decide.test_regions import meeting


def said_of(space: Space, diagram: int) -> str:
    return region_in_words(space.course, region(space, diagram, Budget(1000)))


@pytest.mark.parametrize(
    ("when", "said"),
    [
        ({"a": band(at_least=2, at_most=4)}, "a 2 to 4"),
        ({"a": band(above=5)}, "a 6"),
        ({"b": band(below=1)}, "b 0 to 0.5 cm"),
        ({"c": AnyOf(("v", "x"))}, "c v or x"),
        ({"p": Is(True)}, "p"),
        ({"p": Is(False)}, "no p"),
        ({"p": Is(False), "c": AnyOf(("w",)), "a": band(below=3)}, "a 1 to 2, c w, no p"),
    ],
)
def test_a_box_in_words(when: dict[str, object], said: str) -> None:
    space, diagram = meeting(when)
    assert said_of(space, diagram) == said


def test_a_number_may_run_in_several_pieces() -> None:
    space, diagram = meeting({"a": band(at_most=2)}, {"a": band(at_least=5)})
    assert said_of(space, diagram) == "a 1 to 2 or 5 to 6"


def test_several_boxes_in_words() -> None:
    space, diagram = meeting({"a": band(at_most=2)}, {"p": Is(True)})
    assert said_of(space, diagram) == "a 1 to 2; or p"


def test_abbreviations_keep_their_capitals() -> None:
    labels = {"a": "ROM of the hip", "b": "PTs seen", "c": "NpN", "d": "K"}
    measures = tuple(Measure(name, label, YesNoScale()) for name, label in labels.items())
    space, diagram = meeting({"a": Is(True), "b": Is(True), "c": Is(True), "d": Is(False)}, measures=measures)
    assert said_of(space, diagram) == "ROM of the hip, PTs seen, npN, no k"


def test_all_and_those_that_are_not_told() -> None:
    space, _ = meeting({"p": Is(True)})
    assert said_of(space, YES) == "everyone"
    boxes = ({"p": (range(1, 2),)}, {"a": (range(2),)})
    assert region_in_words(space.course, Region(boxes, True)) == "p; or a 1 to 2; or more besides"
