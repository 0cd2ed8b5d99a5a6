"""A walk as the browser's `tree.js` reads it."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import NotRequired, TypedDict

from builder.course import digest_of_key
from builder.decide.harm import Told

from .walk import Walk, WalkOption, WalkStep


class OptionData(TypedDict):
    id: str
    best: bool
    go: str
    harm: Told
    cautions: list[str]


class StepData(TypedDict):
    kind: str
    options: list[OptionData]
    objective: str | None
    table: str | None
    cautions: list[str]
    sends_on: bool
    key_digest: str
    """Of the right answers alone, as of a question; empty at an end."""
    unit: NotRequired[str]
    """What is learnt."""
    breaks: NotRequired[dict[str, list[str]]]
    """Option id to the cautions that acting on it breaks; without any it is left out."""
    stops: NotRequired[list[str]]
    """Where the right answer sends the client on: the ids of all options that do."""


class WalkData(TypedDict):
    """Keys, ways, harms and cautions; no prose."""

    exercise: str
    case: str
    start: str
    best_path: list[str]
    pass_mark: tuple[int, int]
    """Numerator and denominator."""
    steps: dict[str, StepData]


def walk_data(walk: Walk, pass_mark: Fraction) -> WalkData:
    return {
        "exercise": walk.exercise,
        "case": walk.case,
        "start": walk.start,
        "best_path": list(walk.best_path),
        "pass_mark": (pass_mark.numerator, pass_mark.denominator),
        "steps": {name: _step(step) for name, step in walk.steps.items()},
    }


def _step(step: WalkStep) -> StepData:
    data: StepData = {
        "kind": step.kind,
        "options": [_option(option) for option in step.options],
        "objective": step.objective,
        "table": step.table,
        "cautions": list(step.cautions),
        "sends_on": step.sends_on,
        "key_digest": key_digest(step),
    }
    # A walk stands on every page of a client: what is empty is left out.
    if step.learnt:
        data["unit"] = step.learnt
    if breaks := {o.id: o.acted.cautions for o in step.options if o.acted and o.acted.breaks}:
        data["breaks"] = breaks
    if step.stops:
        data["stops"] = list(step.stops)
    return data


def key_digest(step: WalkStep) -> str:
    """Hash of the outcome or the choices that hold, the same after the step was reworded."""
    right = [option.id if step.kind == "decide" else option.text for option in step.options if option.best]
    return right_digest(step.kind, right) if step.options else ""


def right_digest(kind: str, right: Iterable[str]) -> str:
    """`right`: the outcome of a decide step, the texts of an ask step's best choices."""
    return digest_of_key(kind, tuple(sorted(right)))


def _option(option: WalkOption) -> OptionData:
    return {
        "id": option.id,
        "best": option.best,
        "go": option.go,
        "harm": option.harm,
        "cautions": list(option.cautions),
    }
