"""Proofs of rule sets of the stated size, beside the z3 solver asked the same: processor time. Prints only.

Usage: .venv/bin/python tests/bench/bench_proofs.py [SEEDS] [SECONDS-FOR-Z3]
 16 measures of 8 cells, 6 tables that feed each other, 40 rules each, 6 inputs each. The solver is asked for
one gap and for every dead rule of every table, and under `unique` for any overlap; a kind stops at its time
limit.
"""

from __future__ import annotations

import sys
import time
from functools import partial
from pathlib import Path
from random import Random

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from builder.course import Course  # noqa: E402
from builder.decide.proofs import prove  # noqa: E402
from builder.decide.space import Space  # noqa: E402
from tests.decide.large import STATED, layered, partitioned, spoilt  # noqa: E402
from tests.decide.solver import Solver  # noqa: E402

KINDS = {
    "shared out": partitioned,
    "shared out, two feeds": partial(partitioned, feeds=2),
    "with slips": spoilt,
    "layered": layered,
    "layered, two feeds": partial(layered, feeds=2),
    "layered, all five feeds": partial(layered, feeds=5),
    "layered, every input asked": partial(layered, asked=1.0),
}


def ours(course: Course) -> tuple[float, str]:
    start = time.process_time()
    space = Space(course)
    findings = prove(space)
    spent = time.process_time() - start
    unfinished = sum(one.code == "proof-unfinished" for one in findings)
    said = f"{len(findings):4} findings"
    return spent, said + (f", {unfinished} unfinished" if unfinished else "")


def solvers(course: Course, limit: float) -> tuple[float, str]:
    start = time.process_time()
    solver = Solver(course, seconds=limit)
    asked = answered = 0
    for name, table in course.tables.items():
        questions = [partial(solver.gap, name)]
        questions += [partial(solver.counts, name, rule) for rule in range(len(table.rules))]
        for question in questions:
            asked += 1
            if time.process_time() - start < limit and question() is not None:
                answered += 1
    return time.process_time() - start, f"{answered} of {asked} questions"


def main() -> None:
    seeds = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    limit = float(sys.argv[2]) if len(sys.argv) > 2 else 20.0
    for kind, make in KINDS.items():
        for seed in range(seeds):
            course = make(Random(seed), STATED)
            spent, said = ours(course)
            line = f"{kind:28} seed {seed}: ours {spent:6.2f} s, {said}"
            if limit:
                theirs, answered = solvers(course, limit)
                line += f"; z3 {theirs:6.2f} s, {answered}; z3 / ours {theirs / spent:5.1f}"
            print(line, flush=True)


if __name__ == "__main__":
    main()
