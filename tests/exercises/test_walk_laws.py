"""Laws that hold for every walk through every exercise."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import assume, given
from hypothesis import strategies as st

from builder.answers import Answers
from builder.course import Exercise
from builder.decide.evaluate import decide, met
from builder.decide.found import find
from builder.exercises import Walk, WalkMark, bind_walk, follow

from .exercises import case, course, exercises, table

COURSE = course(table("one", 3), table("two", 6))


def bound(exercise: Exercise, angle: int) -> Walk:
    client = case(angle)
    found = find(COURSE, client.readings)
    return bind_walk(
        COURSE, exercise, client, decide(COURSE, found), met(COURSE, found), Answers(COURSE).of(client)
    )


def walked(walk: Walk, data: st.DataObject, best_only: bool) -> WalkMark | None:
    """Picks by chance to the end; None where that takes too long."""
    picks: list[str] = []
    mark = follow(walk, picks)
    while not mark.done:
        options = [option for option in walk.steps[mark.at].options if option.best or not best_only]
        if not options or len(picks) > 25:
            return None
        picks.append(data.draw(st.sampled_from(options)).id)
        mark = follow(walk, picks)
    return mark


angles = st.integers(0, 9)


@given(exercises(), angles)
def test_every_way_leads_to_a_step(exercise: Exercise, angle: int) -> None:
    walk = bound(exercise, angle)
    assert walk.start in walk.steps
    for step in walk.steps.values():
        assert {option.go for option in step.options} <= set(walk.steps)
        assert (step.kind == "end") == (not step.options)
        assert len({option.id for option in step.options}) == len(step.options)


@given(exercises(), angles)
def test_the_best_path_is_a_path_of_best_answers_and_none_is_shorter(exercise: Exercise, angle: int) -> None:
    walk = bound(exercise, angle)
    fewest = {walk.start: 0}
    for _ in walk.steps:
        for name, count in list(fewest.items()):
            for option in walk.steps[name].options:
                if option.best:
                    fewest[option.go] = min(fewest.get(option.go, count + 1), count + 1)
    ends = [count for name, count in fewest.items() if walk.steps[name].kind == "end"]
    assert len(walk.best_path) == (min(ends) + 1 if ends else 0)
    for here, then in zip(walk.best_path, walk.best_path[1:], strict=False):
        assert any(option.best and option.go == then for option in walk.steps[here].options)
    if walk.best_path:
        assert walk.best_path[0] == walk.start
        assert walk.steps[walk.best_path[-1]].kind == "end"


@given(exercises(), angles, st.data())
def test_best_answers_alone_give_the_full_mark(exercise: Exercise, angle: int, data: st.DataObject) -> None:
    mark = walked(bound(exercise, angle), data, best_only=True)
    assume(mark is not None)
    assert mark is not None
    assert mark.mark == 1


@given(exercises(), angles, st.data())
def test_a_miss_never_leaves_the_full_mark(exercise: Exercise, angle: int, data: st.DataObject) -> None:
    walk = bound(exercise, angle)
    mark = walked(walk, data, best_only=False)
    assume(mark is not None)
    assert mark is not None
    assert 0 <= mark.mark <= 1
    if any(not step.held for step in mark.steps):
        assert mark.mark < 1
    if any(step.harm == "serious" for step in mark.steps):
        assert mark.serious
        assert not mark.held(Fraction(0))
    assert len(mark.steps) == len(set(mark.path)) - 1


@given(exercises(), angles, st.data())
def test_objectives_count_every_answered_step_once(
    exercise: Exercise, angle: int, data: st.DataObject
) -> None:
    mark = walked(bound(exercise, angle), data, best_only=False)
    assume(mark is not None)
    assert mark is not None
    told = [step for step in mark.steps if step.objective]
    assert sum(answered for _, answered in mark.objectives.values()) == len(told)
    assert sum(held for held, _ in mark.objectives.values()) == sum(step.held for step in told)
