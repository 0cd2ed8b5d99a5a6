"""Sets of clients as boxes."""

from __future__ import annotations

from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.course import AnyOf, Caution, Course, Is, Measure
from builder.decide.budget import Budget, Unfinished
from builder.decide.evaluate import matches
from builder.decide.grid import size, value
from builder.decide.regions import Region, region
from builder.decide.space import Space

from .courses import band, choice, course, number, yes_no

MEASURES = (number("a", 1, 6), choice("c", "v", "w", "x"), yes_no("p"), number("b", 0, 2, "0.5", "cm"))
Client = tuple[int, ...]

conditions = {
    "a": st.sets(st.integers(1, 6), min_size=1, max_size=2).map(
        lambda s: band(at_least=min(s), at_most=max(s))
    ),
    "b": st.integers(1, 4).map(lambda n: band(below=n / 2)),
    "c": st.lists(st.sampled_from("vwx"), min_size=1, max_size=2, unique=True).map(lambda n: AnyOf(tuple(n))),
    "p": st.booleans().map(Is),
}
whens = st.fixed_dictionaries({}, optional=conditions)


def meeting(*when: dict[str, object], measures: tuple[Measure, ...] = MEASURES) -> tuple[Space, int]:
    """All who meet a caution, as a diagram."""
    space = Space(course(*measures, Caution("k", "K", "refer", when, "")))  # type: ignore[arg-type]
    return space, space.caution("k")


def everyone(made: Course) -> list[Client]:
    return list(product(*(range(size(measure)) for measure in made.measures.values())))


def meets(made: Course, client: Client) -> bool:
    found = {name: value(one, at) for (name, one), at in zip(made.measures.items(), client, strict=True)}
    return any(matches(when, found) for when in made.cautions["k"].when)


def within(made: Course, box: dict[str, tuple[range, ...]], client: Client) -> bool:
    places = dict(zip(made.measures, client, strict=True))
    return all(any(places[name] in run for run in runs) for name, runs in box.items())


@given(st.lists(whens, min_size=1, max_size=5))
def test_boxes_hold_none_but_those_of_the_set_and_all_unless_more_is_said(
    when: list[dict[str, object]],
) -> None:
    space, diagram = meeting(*when)
    found = region(space, diagram, Budget(100_000))
    those = {client for client in everyone(space.course) if meets(space.course, client)}
    covered = {
        client
        for client in everyone(space.course)
        for box in found.boxes
        if within(space.course, box, client)
    }
    assert covered <= those
    assert found.more == (covered != those)
    assert len(found.boxes) == 4 or not found.more
    for box in found.boxes:
        for name, runs in box.items():
            every = size(space.course.measures[name])
            assert all(len(run) > 0 for run in runs)
            assert all(one.stop < then.start for one, then in pairwise(runs)), "joined, in order"
            assert runs[0].start >= 0
            assert runs[-1].stop <= every
            assert sum(map(len, runs)) < every, "what is free is not named"


@settings(max_examples=40)
@given(st.lists(whens, min_size=1, max_size=4))
def test_no_box_could_be_wider(when: list[dict[str, object]]) -> None:
    space, diagram = meeting(*when)
    those = {client for client in everyone(space.course) if meets(space.course, client)}
    for box in region(space, diagram, Budget(100_000)).boxes:
        for name in box:
            freed = {other: runs for other, runs in box.items() if other != name}
            assert (
                not {client for client in everyone(space.course) if within(space.course, freed, client)}
                <= those
            )
            for cell in space.axes[name].cells:
                wider = {**box, name: (*box[name], *(range(index, index + 1) for index in cell))}
                grown = {client for client in everyone(space.course) if within(space.course, wider, client)}
                assert not grown <= those or all(within(space.course, box, client) for client in grown)


def test_four_boxes_are_told_and_then_that_there_are_more() -> None:
    separate = [{"a": band(at_least=n, at_most=n)} for n in range(0, 20, 2)]
    space, diagram = meeting(*separate[:4], measures=(number("a", 0, 20),))
    assert region(space, diagram, Budget(1000)) == Region(
        ({"a": (range(0, 1), range(2, 3), range(4, 5), range(6, 7))},), False
    )
    corners = [{"a": band(at_most=n), "b": band(at_most=9 - n)} for n in range(1, 9, 2)]
    space, diagram = meeting(*corners, measures=(number("a", 0, 9), number("b", 0, 9)))
    assert (len(region(space, diagram, Budget(1000)).boxes), region(space, diagram, Budget(1000)).more) == (
        4,
        False,
    )
    corners = [{"a": band(at_most=n), "b": band(at_most=9 - n)} for n in range(9)]
    space, diagram = meeting(*corners, measures=(number("a", 0, 9), number("b", 0, 9)))
    found = region(space, diagram, Budget(1000))
    assert (len(found.boxes), found.more) == (4, True)


def test_nobody_is_no_box_and_everyone_is_one_without_limits() -> None:
    space, _ = meeting({"p": Is(True)})
    assert region(space, ~0, Budget(100)) == Region((), False)
    assert region(space, ~1, Budget(100)) == Region(({},), False)


def test_work_is_counted_so_that_every_machine_stops_at_the_same_place() -> None:
    when = {"a": band(below=3), "c": AnyOf(("v",)), "p": Is(True)}
    budget = Budget(100)
    region(*meeting(when), budget)
    assert 100 - budget.left == 18
    region(*meeting(when), Budget(18))
    with pytest.raises(Unfinished):
        region(*meeting(when), Budget(17))
