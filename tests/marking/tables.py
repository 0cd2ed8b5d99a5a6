"""Reads the tables of cases and makes of them what the Python side works on."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

from builder.exercises import Walk, WalkMark, WalkOption, WalkStep
from builder.questions import Item

HERE = Path(__file__).parent


def read(file: str) -> Any:
    return json.loads((HERE / file).read_text("utf-8"))


def item(case: dict[str, Any]) -> Item:
    key = case["key"]
    if case["kind"] == "number":
        key = tuple(Fraction(*part) for part in key)
    return Item("q", case["kind"], "o", "", tuple(key) if isinstance(key, list) else key)


def walk(data: dict[str, Any]) -> Walk:
    steps = {
        name: WalkStep(
            name,
            step["kind"],
            "",
            tuple(
                WalkOption(o["id"], "", o["best"], o["go"], o["harm"], "", tuple(o["cautions"]))
                for o in step["options"]
            ),
            objective=step["objective"],
            cautions=tuple(step["cautions"]),
            sends_on=step["sends_on"],
        )
        for name, step in data["steps"].items()
    }
    return Walk(data["exercise"], data["case"], "", data["start"], steps, tuple(data["best_path"]))


def told(mark: WalkMark, pass_mark: Fraction) -> dict[str, Any]:
    """A walk's mark as the table writes it."""
    return {
        "at": mark.at,
        "done": mark.done,
        "path": list(mark.path),
        "steps": [[step.step, step.held, step.harm] for step in mark.steps],
        "held_steps": mark.held_steps,
        "of": mark.of,
        "serious": mark.serious,
        "held": mark.held(pass_mark),
        "cautions": list(mark.cautions),
        "objectives": {name: list(counts) for name, counts in mark.objectives.items()},
    }
