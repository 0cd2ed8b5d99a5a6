"""Prints how long it takes to make up clients for practice, and to put questions about them.

    python -m tests.bench.bench_practice [CLIENTS]        (500 without)

On the demo course, whose rules are asked for as many clients each as it takes. Times are of the processor, in
seconds: the course read, its rules as diagrams, the clients drawn, every table decided for each, and a
question of the family `decision` about each client and table.
"""

from __future__ import annotations

import sys
import time
from dataclasses import replace
from pathlib import Path

from builder.answers import Answers
from builder.course import Family, Practice
from builder.source import load

COURSE = Path(__file__).parents[2] / "course_src"


def main(clients: int) -> None:
    took: list[tuple[str, float]] = []
    began = time.process_time()

    def lap(what: str) -> None:
        nonlocal began
        now = time.process_time()
        took.append((what, now - began))
        began = now

    course = load(COURSE).course
    lap("course read")
    rules = sum(len(table.rules) for table in course.tables.values())
    each = -(-clients // rules)
    names = tuple(f"Name {number}" for number in range(each * rules))
    asks = {
        f"g{n}": Family(f"g{n}", "decision", name, "practice", "o") for n, name in enumerate(course.tables)
    }
    about = replace(course.about, practice=Practice(each, names))
    answers = Answers(replace(course, about=about, cases={}, questions=asks))
    lap("rules as diagrams: " + str(len(answers.proofs)) + " problems")
    made = answers.practised.cases
    lap(f"{len(made)} clients drawn, {each} for each of {rules} rules")
    for client in answers.made_up.values():
        assert client.decisions
    lap("every table decided for each")
    lap(f"{len(answers.bank)} questions put")
    for what, seconds in took:
        print(f"{seconds:7.3f}  {what}")
    print(f"{sum(seconds for what, seconds in took if 'clients drawn' in what or 'decided' in what):7.3f}"
          "  clients drawn and decided (aim: under 2 for 500)")  # fmt: skip


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 500)
