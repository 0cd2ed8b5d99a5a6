"""Prints how long `casetrue records` takes over a large team, and how much memory.

    python -m tests.bench.bench_records [COACHES ANSWERS]        (200 and 2000 without)

Every coach has answers of their own, drawn over the whole demo course: no two files share an attempt. The
files are as the browser writes them; writing them is not measured. Seconds are of the command in a process
of its own, by the clock and of its CPU; MB is the most memory that it held.
"""

from __future__ import annotations

import json
import random
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from builder.answers import Answers
from builder.questions import Item
from builder.source import load

ROOT = Path(__file__).parents[2]
OPTIONS = {"json": ["--format", "json"], "table": []}
A_QUIZ = 20
"""Answers in one sitting."""


def answer(item: Item, coach: random.Random, skill: float) -> tuple[Any, float]:
    """An answer and its mark."""
    if item.kind == "one" and isinstance(item.key, str):
        wrong = [option.id for option in item.options if option.id != item.key]
        right = coach.random() < skill
        return (item.key, 1) if right else (coach.choice(wrong), 0)
    return None, 1


def record(answers: Answers, number: int, size: int) -> dict[str, Any]:
    """One coach's file."""
    coach = random.Random(number)
    skill = coach.uniform(0.5, 0.95)
    items = [item for item in answers.bank if item.kind == "one"]
    attempts: list[dict[str, Any]] = []
    met: set[tuple[str, str | None]] = set()
    for place in range(size):
        item = coach.choice(items)
        given, mark = answer(item, coach, skill)
        second = place * 600 + coach.randrange(500)
        day, second = divmod(second, 86_400)
        stops = {"stopped": given in item.stops} if item.stops else {}
        harm = next((option.harm for option in item.options if option.id == given), "none")
        attempts.append({
            "kind": "question", "id": item.id, "digest": item.digest, "objective": item.objective,
            "at": f"2026-05-{day + 1:02}T{second // 3600:02}:{second // 60 % 60:02}:{second % 60:02}"
                  f".{coach.randrange(1000):03}Z",
            "mark": mark, "right": mark == 1, "harm": harm, "unit": item.learnt, "answer": given,
            "known": True, "key": item.key_digest, "quiz": "whole-course", "draw": place // A_QUIZ + 1,
            "mode": "quiz", "ms": coach.randrange(2_000, 60_000), "sure": coach.randrange(1, 4),
            "sitting": f"{number:04x}{place // A_QUIZ:08x}", "first": (item.learnt, item.case) not in met,
            **({"client": item.case} if item.case else {}), **stops,
        })  # fmt: skip
        met.add((item.learnt, item.case))
    name = {"learner": f"Coach number {number}", "device": f"{number:016x}"}
    return {"format": 2, "course": answers.course.about.name, **name, "attempts": attempts}


def measured(files: list[str], more: list[str]) -> tuple[float, float]:
    """Seconds by the clock and of the CPU."""
    command = [sys.executable, "-m", "builder.cli", "records", *files, *more, "--today", "2026-06-30"]
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run(command, cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    spent = time.perf_counter() - start
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return spent, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main() -> None:
    coaches, size = map(int, sys.argv[1:] or (200, 2000))
    with tempfile.TemporaryDirectory() as folder:
        answers = Answers(load(ROOT / "course_src").course)
        files = []
        for number in range(coaches):
            file = Path(folder) / f"{number:04}.json"
            file.write_text(json.dumps(record(answers, number, size)), "utf-8")
            files.append(str(file))
        print(f"{coaches} coaches with {size} answers each")
        print(f"{'':8}{'clock s':>9}{'CPU s':>9}{'MB':>6}")
        for name, more in {**OPTIONS, "--out": ["--out", str(Path(folder) / "monday")]}.items():
            clock, cpu = measured(files, more)
            most = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
            print(f"{name:8}{clock:9.2f}{cpu:9.2f}{most:6.0f}", flush=True)


if __name__ == "__main__":
    main()
