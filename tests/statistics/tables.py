"""Writes the tables of chances and intervals that Python and the browser both compute."""

from __future__ import annotations

import json
import random
from collections.abc import Iterable
from pathlib import Path

from builder.statistics import Row, chance, clustered

HERE = Path(__file__).parent
CHANCES = HERE / "chances.json"
CLUSTERED = HERE / "clustered.json"

LITTERS = {
    "control": "13/13 12/12 9/9 9/9 8/8 8/8 12/13 11/12 9/10 9/10 8/9 11/13 4/5 5/7 7/10 7/10",
    "treated": "12/12 11/11 10/10 9/9 10/11 9/10 9/10 8/9 8/9 4/5 7/9 4/7 5/10 3/6 3/10 0/7",
}
"""Rats that lived, of how many, litter by litter. Weil CS, Food Cosmet Toxicol 1970;8:177-182, as in the data
set `rats` of the R package aod; also table 1 of Rao and Scott, Biometrics 1992;48:577-585."""

Groups = list[tuple[int, int]]
Given = tuple[int, int, int, tuple[int, int] | None]


def groups(text: str) -> Groups:
    """Held and answered, client by client, from `3/4 0/2`."""
    return [(int(held), int(of)) for held, of in (one.split("/") for one in text.split())]


def answers(groups: Groups) -> list[tuple[bool, str | None]]:
    return [(n < held, f"client {at}") for at, (held, of) in enumerate(groups) for n in range(of)]


def intervals() -> Iterable[list[object]]:
    draw = random.Random(2)
    few = ["1/1 0/1 1/1", "3/3", "0/4", "2/5", "4/4 4/4 4/4 4/4 4/4", "0/2 0/3", "2/2 0/2", "1/2 1/1"]
    given = [groups(text) for text in (*LITTERS.values(), *few, "1/1 " * 20 + "1/2")]
    for _ in range(12):
        sizes = [draw.randint(1, 7) for _ in range(draw.randint(1, 14))]
        given.append([(draw.randint(0, of), of) for of in sizes])
    return ([one, *clustered(answers(one))] for one in given)


def chances() -> Iterable[list[object]]:
    draw = random.Random(4)

    def row() -> Given:
        wrong = draw.randint(0, 15)
        serious = draw.randint(0, min(3, wrong))
        judged = (serious, wrong - serious) if draw.random() < 0.4 else None
        return (draw.randint(0, 6), draw.randint(0, 40), wrong, judged)

    given: list[tuple[list[Given], int]] = [
        ([(1, 0, 1, None)], 1),
        ([(10, 10, 0, None)], 8),
        ([(5, 0, 0, (0, 0))], 4),
        ([(3, 2, 1, (1, 0))] * 5, 10),
        ([(500, 900, 300, None), (2, 3, 0, None)], 400),
        ([(20, 5000, 1, None)], 20),
        ([(0, 9, 1, None), (4, 0, 0, None)], 3),
    ]
    for _ in range(30):
        rows = [(draw.randint(1, 6), *row()[1:]), *(row() for _ in range(draw.randint(0, 7)))]
        given.append((rows, draw.randint(1, sum(one[0] for one in rows))))
    found = ((rows, needed, chance([Row(*one) for one in rows], needed)) for rows, needed in given)
    return ([rows, needed, one.low, one.chance, one.high] for rows, needed, one in found)


if __name__ == "__main__":
    for table, cases in ((CHANCES, chances()), (CLUSTERED, intervals())):
        lines = ",\n".join(map(json.dumps, cases))
        table.write_text(f"[\n{lines}\n]\n", "utf-8")
