"""The outside referee of `web/readiness.js`: scipy.stats.betabinom and numpy.convolve."""

from __future__ import annotations

import json
import math
import random
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np
from scipy.stats import betabinom

TABLE = Path(__file__).parent / "readiness_cases.json"


def chance(rows: list[dict[str, int]], pass_mark: tuple[int, int]) -> float:
    """Of reaching the pass mark, where each row has `count` fresh questions of an objective, of which
    `held` held so far and `missed` did not; uniform prior Beta(1, 1)."""
    held = np.array([1.0])
    for row in rows:
        n, a, b = row["count"], 1 + row["held"], 1 + row["missed"]
        held = np.convolve(held, betabinom.pmf(np.arange(n + 1), n, a, b))
    questions = sum(row["count"] for row in rows)
    return float(held[math.ceil(Fraction(*pass_mark) * questions) :].sum())


def cases() -> list[dict[str, Any]]:
    chance_of = random.Random(4)

    def row() -> dict[str, int]:
        return {
            "count": chance_of.randint(1, 12),
            "held": chance_of.randint(0, 40),
            "missed": chance_of.randint(0, 15),
        }

    found: list[dict[str, Any]] = [
        {"rows": [{"count": 1, "held": 0, "missed": 1}], "pass_mark": [1, 1]},
        {"rows": [{"count": 10, "held": 10, "missed": 0}], "pass_mark": [4, 5]},
        {"rows": [{"count": 5, "held": 1, "missed": 0}], "pass_mark": [1, 5]},
        {"rows": [{"count": 3, "held": 2, "missed": 1}] * 5, "pass_mark": [2, 3]},
        {"rows": [{"count": 500, "held": 900, "missed": 300}, row()], "pass_mark": [3, 4]},
        {"rows": [{"count": 500, "held": 5000, "missed": 1}], "pass_mark": [1, 1]},
    ]
    for _ in range(40):
        rows = [row() for _ in range(chance_of.randint(1, 8))]
        found.append({"rows": rows, "pass_mark": [chance_of.randint(1, 20), 20]})
    return [{**case, "chance": chance(case["rows"], tuple(case["pass_mark"]))} for case in found]


if __name__ == "__main__":
    lines = ",\n".join(json.dumps(case) for case in cases())
    TABLE.write_text(f"[\n{lines}\n]\n", "utf-8")
