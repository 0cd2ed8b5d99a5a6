"""What the model promises its readers: records that nobody can change, alike wherever they were written."""

from __future__ import annotations

import dataclasses
import inspect
from fractions import Fraction

import pytest

import builder.course as model
from builder.course import (
    About,
    Breath,
    Choice,
    Correction,
    DrillFault,
    EndStep,
    Option,
    Origin,
    Outcome,
    Place,
    Question,
)

KINDS = [kind for _, kind in inspect.getmembers(model, inspect.isclass) if dataclasses.is_dataclass(kind)]


@pytest.mark.parametrize("kind", KINDS, ids=[kind.__name__ for kind in KINDS])
def test_nothing_of_a_course_can_be_changed(kind: type) -> None:
    made = _made(kind, "here.yml")
    for part in dataclasses.fields(kind):
        with pytest.raises(dataclasses.FrozenInstanceError):
            setattr(made, part.name, None)


@pytest.mark.parametrize("kind", KINDS, ids=[kind.__name__ for kind in KINDS])
def test_where_it_was_written_makes_no_difference(kind: type) -> None:
    here, there = _made(kind, "here.yml"), _made(kind, "there.yml")
    if any(part.name == "origin" for part in dataclasses.fields(kind)):
        assert here.origin != there.origin
        assert "yml" not in repr(here), "what is told of it when a test fails stays short"
    assert here == there


def _made(kind: type, file: str) -> object:
    """One of a kind, with its first parts filled in by anything."""
    needed = [
        part.name
        for part in dataclasses.fields(kind)
        if part.default is dataclasses.MISSING and part.default_factory is dataclasses.MISSING
    ]
    given: dict[str, object] = dict.fromkeys(needed, "x")
    if any(part.name == "origin" for part in dataclasses.fields(kind)):
        given["origin"] = Origin(file)
    return kind(**given)


def test_a_part_is_placed_where_it_is_written_or_what_holds_it_is() -> None:
    marks = {(): (1, 1), ("rules",): (4, 3), ("rules", 0): (5, 5), ("rules", 0, "then"): (6, 7)}
    top = Origin("t.yml", marks)
    assert top.at() == Place("t.yml", 1, 1)
    assert top.at("rules", 0, "then") == Place("t.yml", 6, 7)
    assert top.at("rules", 0, "when", "ankle", 2) == Place("t.yml", 5, 5)
    assert top.at("nothing") == Place("t.yml", 1, 1)
    rule = top.below("rules", 0)
    assert rule.at("then") == top.at("rules", 0, "then")
    assert rule.at("because") == rule.at() == Place("t.yml", 5, 5)
    assert rule.below("then").at() == Place("t.yml", 6, 7)


def test_without_a_mark_a_part_is_placed_at_the_top_of_its_file() -> None:
    assert Origin("t.yml").at("rules", 3) == Place("t.yml", 1, 1)
    assert (Place("t.yml").line, Place("t.yml").column) == (1, 1), "both count from 1"


def test_where_a_file_was_read_from_a_path_tells_apart_and_marks_do_not() -> None:
    assert Origin("t.yml", {(): (1, 1)}) == Origin("t.yml", {(): (9, 9)})
    assert Origin("t.yml", path=("a",)) != Origin("t.yml", path=("b",))


def test_what_is_left_out_stands_for_the_course_formats_defaults() -> None:
    """Course format: four fifths pass a quiz; an exact number; no pause in a breath, and at most five seconds
    and five breaths (common practice); nothing is a key, the best, an end or a stop unless it says so."""
    assert About("c", "C").pass_mark == Fraction(4, 5)
    assert Question("q", "number", "o", "?").within == 0
    assert Breath(Fraction(3), Fraction(3)).pause == 0
    assert (model.MOST_PAUSE, model.MOST_BREATHS) == (5, 5)
    assert not Option("a").key
    assert not Choice("a", "", "end").best
    assert not EndStep("end").sends_on
    assert not Outcome("o", "O").ends
    assert not DrillFault("f", "s", "c", (Correction("c"),)).stop
