"""The browser's modules on the tables of cases, and on tables drawn by chance with Python's own results."""

from __future__ import annotations

import json
import random
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from builder.decide.harm import TOLD
from builder.exercises import follow
from builder.exercises.graph import shortest
from builder.questions.draw import drawn
from builder.questions.marking import harm_of, mark, mark_quiz
from builder.questions.numbers import read_number

from ..node import run_node_tests
from .tables import HERE, draw_data, item, read, told, walk


def run_browser_part(cases: Path) -> None:
    run_node_tests(HERE / "browser_part.test.js", 8, CASES=str(cases))


def test_the_browser_marks_the_tables_alike() -> None:
    run_browser_part(HERE)


@pytest.mark.parametrize("seed", range(3))
def test_the_browser_marks_what_chance_makes_alike(seed: int, tmp_path: Path) -> None:
    chance = random.Random(seed)
    cases = {
        "numbers": [number_case(chance) for _ in range(300)],
        "items": [item_case(chance) for _ in range(400)],
        "quizzes": [quiz_case(chance) for _ in range(100)],
        "harms": [harm_case(chance) for _ in range(100)],
    }
    walks = {f"w{number}": walk_data(chance) for number in range(60)}
    walked = [walk_case(chance, name, data) for name, data in walks.items() for _ in range(5)]
    draws = {"pcg32": read("draw_cases.json")["pcg32"], "draws": [draw_case(chance) for _ in range(150)]}
    for file, table in (
        ("cases.json", cases),
        ("walk_cases.json", {"walks": walks, "cases": walked}),
        ("draw_cases.json", draws),
    ):
        (tmp_path / file).write_text(json.dumps(table), "utf-8")
    run_browser_part(tmp_path)


def number_case(chance: random.Random) -> dict[str, Any]:
    text = "".join(chance.choice("0123456789.,-+ \u2212\u2013\u00a0e") for _ in range(chance.randint(0, 5)))
    value = read_number(text)
    return {"text": text, "value": pair(value) if value is not None else None}


def item_case(chance: random.Random) -> dict[str, Any]:
    kind = chance.choice(["one", "several", "number", "order", "pairs"])
    names = list("abcdef")[: chance.randint(1, 6)]
    key: Any = chance.choice(names)
    answer: Any = chance.choice([*names, None])
    if kind == "several":
        key = sorted(chance.sample(names, chance.randint(1, len(names))))
        answer = chance.choices(names, k=chance.randint(0, 6))
    elif kind == "number":
        key = [[chance.randint(-30, 30), 10], [chance.randint(0, 10), 10]]
        answer = chance.choice(
            [f"{chance.randint(-30, 30) / 10}", f" {chance.randint(0, 3)},{chance.randint(0, 9)}"]
        )
    elif kind == "order":
        key = chance.sample(names, len(names))
        answer = (
            chance.sample(names, len(names)) if chance.random() < 0.9 else chance.choices(names, k=len(names))
        )
    elif kind == "pairs":
        key = chance.choices(names, k=len(names))
        answer = chance.choices([*names, ""], k=chance.randint(0, len(names)))
    case = {"name": f"{kind} {key} {answer}", "kind": kind, "key": key, "answer": answer}
    return {**case, "mark": pair(mark(item(case), answer))}


def harm_case(chance: random.Random) -> dict[str, Any]:
    kind = chance.choice(["one", "several"])
    harm = {name: chance.choice(TOLD[1:]) for name in chance.sample("bcdef", chance.randint(0, 5))}
    answer: Any = chance.choice([*"abcdef", None])
    if kind == "several":
        answer = chance.sample("abcdef", chance.randint(0, 6))
    case = {"name": f"{kind} {harm} {answer}", "kind": kind, "key": "a", "harm": harm, "answer": answer}
    return {**case, "told": harm_of(item(case), answer)}


def quiz_case(chance: random.Random) -> dict[str, Any]:
    marks = [
        Fraction(chance.randint(0, 7), chance.choice([7, 8, 9, 10])) for _ in range(chance.randint(0, 30))
    ]
    pass_mark, serious = Fraction(chance.randint(0, 10), 10), chance.random() < 0.3
    found = mark_quiz(marks, pass_mark, serious)
    return {
        "name": str(marks),
        "marks": [pair(one) for one in marks],
        "serious": serious,
        "pass_mark": pair(pass_mark),
        "mark": pair(found.mark),
        "held": found.held,
    }


def walk_data(chance: random.Random) -> dict[str, Any]:
    """A graph of up to six questions; every step can be left for the end."""
    names = [f"s{number}" for number in range(chance.randint(1, 6))]
    cautions = ["c1", "c2", "c3"]

    def some() -> list[str]:
        return chance.sample(cautions, chance.choice([0, 0, 1]))

    def option(letter: str, go: str, best: bool) -> dict[str, Any]:
        harm = "none" if best else chance.choice(TOLD)
        return {"id": letter, "best": best, "go": go, "harm": harm, "cautions": some()}

    steps: dict[str, Any] = {}
    for name in names:
        options = [option("a", "end" if name == names[-1] else names[names.index(name) + 1], True)]
        options += [option(letter, chance.choice([*names, "end"]), chance.random() < 0.4) for letter in "bcd"]
        steps[name] = {
            "kind": "ask",
            "objective": chance.choice(["o1", "o2", None]),
            "cautions": some(),
            "table": None,
            "sends_on": False,
            "options": options,
        }
    steps["end"] = {
        "kind": "end",
        "objective": None,
        "cautions": some(),
        "table": None,
        "sends_on": True,
        "options": [],
    }
    best = shortest(names[0], {"end"}, lambda at: [o["go"] for o in steps[at]["options"] if o["best"]])
    return {
        "exercise": "e",
        "case": "k",
        "start": names[0],
        "best_path": list(best),
        "pass_mark": [chance.randint(0, 5), 5],
        "steps": steps,
    }


def walk_case(chance: random.Random, name: str, data: dict[str, Any]) -> dict[str, Any]:
    picks: list[str] = []
    at = data["start"]
    while data["steps"][at]["kind"] != "end" and len(picks) < 12:
        option = chance.choice(data["steps"][at]["options"])
        picks.append(option["id"])
        at = option["go"]
    result = told(follow(walk(data), picks), Fraction(*data["pass_mark"]))
    return {"name": f"{name} {picks}", "walk": name, "picks": picks, "result": result}


def draw_case(chance: random.Random) -> dict[str, Any]:
    data = draw_data(chance)
    seed = chance.choice([chance.randint(0, 20), chance.randrange(2**53)])
    return {"name": f"{data} {seed}", "data": data, "seed": seed, "drawn": drawn(data, seed)}


def pair(number: Fraction) -> list[int]:
    return [number.numerator, number.denominator]
