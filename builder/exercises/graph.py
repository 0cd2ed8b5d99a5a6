"""Facts about a graph of steps: what can be reached, the shortest way, where somebody would be caught."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass

from builder.course import AskStep, DecideStep, EndStep, Exercise

Next = Callable[[str], Iterable[str]]
"""The steps that may follow a step, in the order written."""


def reachable(start: str, following: Next) -> tuple[str, ...]:
    """Every step that can be reached from `start`, itself included, nearest first."""
    seen = {start: None}
    queue = deque([start])
    while queue:
        for step in following(queue.popleft()):
            if step not in seen:
                seen[step] = None
                queue.append(step)
    return tuple(seen)


def shortest(start: str, goals: Collection[str], following: Next) -> tuple[str, ...]:
    """The shortest way from `start` to any of `goals`, both included; empty if there is none.

    Of several, the one that takes the first written turn earliest (breadth first keeps that order).
    """
    came_from: dict[str, str | None] = {start: None}
    queue = deque([start])
    while queue:
        step = queue.popleft()
        if step in goals:
            way = [step]
            while (before := came_from[way[-1]]) is not None:
                way.append(before)
            return tuple(reversed(way))
        for then in following(step):
            if then not in came_from:
                came_from[then] = step
                queue.append(then)
    return ()


def leading_to(goals: Collection[str], steps: Iterable[str], following: Next) -> frozenset[str]:
    """The steps from which some way leads to one of `goals`, the goals themselves included."""
    before: dict[str, list[str]] = {}
    for step in steps:
        for then in following(step):
            before.setdefault(then, []).append(step)
    return frozenset(step for goal in goals for step in reachable(goal, lambda at: before.get(at, ())))


@dataclass(frozen=True, slots=True)
class GraphFacts:
    """What is odd about an exercise as written, whoever the client is."""

    missing: tuple[tuple[str, str], ...]
    """(step, target) where the target is no step; the start is told as ("", start)."""
    unreachable: tuple[str, ...]
    """Steps that no answer leads to."""
    trapped: tuple[str, ...]
    """Steps that can be reached, but from which no answers lead to an end."""
    no_best: tuple[str, ...]
    """`ask` steps without a best choice."""
    no_best_way: tuple[str, ...]
    """Steps that can be reached and have a way to an end, but none made of best answers."""


def targets(exercise: Exercise) -> Mapping[str, tuple[str, ...]]:
    """Step to the steps that it names, in the order written, best or not."""
    found: dict[str, tuple[str, ...]] = {}
    for name, step in exercise.steps.items():
        if isinstance(step, DecideStep):
            found[name] = tuple(step.go.values())
        elif isinstance(step, AskStep):
            found[name] = tuple(choice.go for choice in step.choices)
        else:
            found[name] = ()
    return found


def facts(exercise: Exercise) -> GraphFacts:
    """What is odd about the graph of `exercise`; a decide step may take any of its ways."""
    steps = exercise.steps
    named = targets(exercise)
    missing = [] if exercise.start in steps else [("", exercise.start)]
    missing += [(step, to) for step, goes in named.items() for to in dict.fromkeys(goes) if to not in steps]
    best = dict(named)
    for name, step in steps.items():
        if isinstance(step, AskStep):
            best[name] = tuple(choice.go for choice in step.choices if choice.best)
    met = reachable(exercise.start, lambda at: named.get(at, ()))
    ends = [name for name, step in steps.items() if isinstance(step, EndStep)]
    finishing = leading_to(ends, steps, lambda at: named[at])
    finishing_best = leading_to(ends, steps, lambda at: best[at])
    return GraphFacts(
        missing=tuple(missing),
        unreachable=tuple(name for name in steps if name not in met),
        trapped=tuple(name for name in steps if name in met and name not in finishing),
        no_best=tuple(
            name
            for name, step in steps.items()
            if isinstance(step, AskStep) and not any(choice.best for choice in step.choices)
        ),
        no_best_way=tuple(
            name for name in steps if name in met and name in finishing and name not in finishing_best
        ),
    )
