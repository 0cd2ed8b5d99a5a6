"""Reads the tables of cases and makes of them what the Python side works on."""

from __future__ import annotations

import json
import random
from fractions import Fraction
from pathlib import Path
from typing import Any

from builder.decide.harm import ActedOn
from builder.exercises import Walk, WalkMark, WalkOption, WalkStep
from builder.questions import Item, ItemOption
from builder.questions.draw import DrawData

ARGUABLE = ActedOn("serious", unsure=True)
HERE = Path(__file__).parent


def read(file: str) -> Any:
    return json.loads((HERE / file).read_text("utf-8"))


def item(case: dict[str, Any]) -> Item:
    key = case["key"]
    if case["kind"] == "number":
        key = tuple(Fraction(*part) for part in key)
    options = tuple(
        ItemOption(name, "", acted=ActedOn("none", written=harm) if harm != "arguable" else ARGUABLE)
        for name, harm in case.get("harm", {}).items()
    )
    return Item("q", case["kind"], "o", "", tuple(key) if isinstance(key, list) else key, options)


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
            table=step["table"],
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


def draw_data(chance: random.Random) -> DrawData:
    """Some pools, clients and things that a draw must hold, by chance."""
    pools, size = chance.randint(1, 4), chance.randint(0, 25)
    numbers = range(size)
    return {
        "rows": [(chance.randrange(pools), chance.randint(0, 6)) for _ in range(chance.randint(0, 5))],
        "pool": [chance.randrange(pools) for _ in numbers],
        "client": [chance.randint(-1, 6) for _ in numbers],
        "must": [
            (chance.randint(1, 4), sorted(chance.sample(numbers, chance.randint(0, min(6, size)))))
            for _ in range(chance.choice([0, 0, 1, 2, 3]))
        ],
        "never": [
            [sorted(chance.sample(numbers, chance.randint(0, min(4, size)))) for _ in range(2)]
            for _ in range(chance.choice([0, 0, 1, 2]))
        ],
    }
