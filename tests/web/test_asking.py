"""The browser's judgement of what was asked, beside Python's, on the demo's clients and sets by chance."""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

from builder.answers import Answers
from builder.site.asked import ask_block
from builder.source import load

from ..node import run_node_tests

HERE = Path(__file__).parent
DEMO = HERE.parents[1] / "course_src"


def test_both_judge_alike_what_was_asked(tmp_path: Path) -> None:
    chance, answers = random.Random(13), Answers(load(DEMO).course)
    asked: list[dict[str, Any]] = []
    spent: list[dict[str, Any]] = []
    for case in chance.sample(list(answers.course.cases.values()), 16):
        client = answers.of(case)
        walk = client.walks["first-decision"]
        data = ask_block(answers, walk)
        names = [one["name"] for one in data["measures"]]
        for name, step in data["steps"].items():
            asking = client.asking[walk.steps[name].table or ""]
            assert asking is not None
            for option in walk.steps[name].options:
                chosen = chance.sample(names, chance.randint(0, len(names)))
                twin = asking.unsafe(option.id, chosen)
                asked.append(
                    {
                        "step": step,
                        "answer": option.id,
                        "numbers": [names.index(one) for one in chosen],
                        "known": asking.is_known(chosen),
                        "apart": None if twin is None else [names.index(one) for one in twin.change],
                    }
                )
        chosen = chance.sample(names, 4)
        took = sum(answers.course.measures[one].takes for one in chosen if one not in case.told)
        spent.append({"data": data, "numbers": [names.index(one) for one in chosen], "least": float(took)})
    (tmp_path / "cases.json").write_text(json.dumps({"asked": asked, "spent": spent}), "utf-8")
    run_node_tests(HERE / "asking.test.js", 3, CASES=str(tmp_path / "cases.json"))
