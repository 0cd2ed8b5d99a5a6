"""Follows a learner through a walk and marks it; the rules stand in `questions/MARKING.md`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from builder.decide.harm import TOLD, Told
from builder.questions.marking import by_objective

from .walk import Walk, WalkOption, WalkStep


@dataclass(frozen=True, slots=True)
class StepMark:
    step: str
    held: bool
    """Whether the first answer was a best one."""
    harm: Told
    """The worst harm of all answers given at this step."""
    objective: str | None = None


@dataclass(frozen=True, slots=True)
class WalkMark:
    """How far a learner has come, and what it is worth so far."""

    at: str
    """The step that waits for an answer, or the end that was reached."""
    done: bool
    path: tuple[str, ...]
    """Every step in the order met, repeats and `at` included."""
    steps: tuple[StepMark, ...]
    """One for each step that was answered, in the order first met."""
    held_steps: int
    """Steps held at the first answer, as they count: at most `of`, or one less if any step was missed."""
    of: int
    """Steps of the shortest best path, its end not counted."""
    serious: bool
    cautions: tuple[str, ...]
    """Those that have opened, in order, each once."""
    objectives: Mapping[str, tuple[int, int]]
    """Objective to (steps held, steps answered)."""

    @property
    def mark(self) -> Fraction:
        """From 0 to 1. Where there are no steps to count by: the full mark, or none if a step was missed."""
        if not self.of:
            return Fraction(all(step.held for step in self.steps))
        return Fraction(self.held_steps, self.of)

    def held(self, pass_mark: Fraction) -> bool:
        """Whether the exercise is held: walked to its end, at least the pass mark, no serious harm."""
        return self.done and self.mark >= pass_mark and not self.serious


def follow(walk: Walk, picks: Sequence[str]) -> WalkMark:
    """What the answers `picks` (option ids, from the start on) come to.

    Raises ValueError for a pick that its step does not offer, or one after the end.
    """
    at = walk.steps[walk.start]
    path = [at.id]
    first: dict[str, WalkOption] = {}
    worst: dict[str, Told] = {}
    opened = dict.fromkeys(_on_arrival(at))
    for pick in picks:
        option = next((option for option in at.options if option.id == pick), None)
        if option is None:
            raise ValueError(f"step {at.id} has no option {pick}")
        first.setdefault(at.id, option)
        worst[at.id] = max(worst.get(at.id, "none"), option.harm, key=TOLD.index)
        opened |= dict.fromkeys((*option.cautions, *at.cautions))
        at = walk.steps[option.go]
        path.append(at.id)
        opened |= dict.fromkeys(_on_arrival(at))
    steps = tuple(
        StepMark(step, option.best, worst[step], walk.steps[step].objective) for step, option in first.items()
    )
    of = max(0, len(walk.best_path) - 1)
    held = sum(step.held for step in steps)
    return WalkMark(
        at=at.id,
        done=at.kind == "end",
        path=tuple(path),
        steps=steps,
        held_steps=max(0, min(held, of if held == len(steps) else of - 1)),
        of=of,
        serious="serious" in worst.values(),
        cautions=tuple(opened),
        objectives=by_objective((step.objective, step.held) for step in steps if step.objective),
    )


def _on_arrival(step: WalkStep) -> tuple[str, ...]:
    return step.cautions if step.kind == "end" else ()
