"""The browser's modules on the tables of cases."""

from __future__ import annotations

import copy
import json
import random
from pathlib import Path
from typing import Any

import pytest

from builder.records.names import shown

from ..node import run_node_tests
from .make import attempt, old, quiz, record, step, walk
from .test_reading import outcome

HERE = Path(__file__).parent

RIDGE = {"week": [20, 40], "year": [5, 10]}
"""Reference value spacing-ridge: best gap in per cent of the time to the test.
Source: Cepeda et al., Psychol Sci 2008;19(11):1095-1102, abstract."""


def run_browser_part(**environment: str) -> None:
    signs = [*range(0x20000), *range(0xE0000, 0xE1100)]
    blank = [sign for sign in signs if not shown(chr(sign))]
    cleaned = [sign for sign in signs if shown(f"a{chr(sign)}b") != f"a{chr(sign)}b"]
    names = json.dumps({"signs": len(signs), "blank": blank, "cleaned": cleaned}, separators=(",", ":"))
    file = HERE / "browser_part.test.js"
    run_node_tests(file, 13, RIDGE=json.dumps(RIDGE), SIGNS=names, **environment)


def test_the_browser_counts_as_the_tables_say() -> None:
    run_browser_part()


SOUND = record(
    {**attempt("a", 1, quiz="ankle-check", draw=3, sure=2, first=True), "mode": "quiz"},
    walk(second=2, harm="minor"),
    step(
        second=2,
        mark=0,
        unit="plan/stiff",
        client="tern-03",
        answer=["a", "b"],
        breaks=["x"],
        ms=1,
        key="0" * 8,
    ),
    quiz(0.5, False, 3, counts=True, sitting="0" * 16),
    version="1.0",
    build="0a1b2c3d",
    learner="Wren Hollis",
    device="0a1b2c3d4e5f6071",
    edition="1",
    stopped={"rail-06": True},
)
OLD = {
    **record(
        old("a", 1, quiz="ankle-check", seed=3, certainty=2, first=True),
        old("first-visit/tern-03", 2, kind="walk", objective="", harm="minor", held=True),
        old("first-visit/tern-03/class", 2, kind="step", mark=0),
        old("ankle-check", 3, kind="quiz", objective="", mark=0.5, held=False, quiz="ankle-check", seed=1),
        version="1.0",
        build="0a1b2c3d",
        learner="Wren Hollis",
    ),
    "format": 1,
}
ODD: list[Any] = [
    *("", "\n", " ", "x", "A-b_9", "a.b/c", "0123456789abcdef", "=1", "none", "__proto__"),
    *("\ud800", "\u0661", "\u212a"),
    *(None, True, False, 0, -0.0, 1, 1.0, 2, 3, 4, 0.5, 1e-300, -1, 1.5, 2**53, 2**53 - 1, 2.0**53, 1e308),
    *([], {}, [1], {"a": 1}, ["x"]),
    *("2026-06-01T00:00:60.000Z", "2026-06-01t00:00:00.000z", "2024-02-29T23:59:59.999Z"),
]
ENDS = ["\n", "\r", "\r\n", "\u2028", "\x85", "\x1c", " ", "\0", "Z", ".", "\u00df", "\ud83d"]


def changed(chance: random.Random) -> str:
    """A sound record with one to three things in it, or in its text, made odd."""
    file = copy.deepcopy(chance.choice([SOUND, OLD]))
    for _ in range(chance.randint(1, 3)):
        part = chance.choice([file, *(one for one in file["attempts"] if isinstance(one, dict))])
        key = chance.choice([*part, "held", "passed", "right", "draw", "harm", "odd"])
        match chance.randrange(6):
            case 0:
                part.pop(key, None)
            case 1:
                part[key] = copy.deepcopy(chance.choice(ODD))
            case 2 if isinstance(part.get(key), list):
                part[key].append(copy.deepcopy(chance.choice(ODD)))
            case _ if isinstance(part.get(key), str):
                part[key] = chance.choice([part[key] + chance.choice(ENDS), chance.choice(ENDS) + part[key]])
            case _:
                part[key] = copy.deepcopy(chance.choice(ODD))
        if not isinstance(file.get("attempts"), list):
            break
    text = json.dumps(file, ensure_ascii=chance.random() < 0.5)
    text = text.encode("utf-8", "replace").decode()  # no file holds half a sign but as an escape
    if chance.random() < 0.1:
        at = chance.randrange(len(text))
        text = (
            text[:at] + chance.choice(["", *'",:{}[]01eE.-\\u', "\ufeff"]) + text[at + chance.randrange(2) :]
        )
    return text


@pytest.mark.parametrize("seed", range(1, 4))
def test_the_browser_takes_and_refuses_what_chance_makes_alike(seed: int, tmp_path: Path) -> None:
    chance = random.Random(seed)
    table = []
    for number in range(1600):
        text = changed(chance)
        refused, unread = outcome(text.encode())
        one = {"name": f"{number}: {text}", "text": text, "refused": refused}
        table.append(one if unread is None else {**one, "unread": unread})
    outcomes = {(one["refused"], len(one.get("unread", []))) for one in table}
    assert {(None, 0), (None, 1), (None, 2), ("json", 0), ("part", 0), ("course", 0)} <= outcomes
    file = tmp_path / "files.json"
    file.write_text(json.dumps(table), "utf-8")
    run_browser_part(FILES=file.as_uri())
