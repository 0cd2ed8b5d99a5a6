"""How long a course of many clients takes to load, cold and warm. Prints; asserts nothing.

Usage: .venv/bin/python tests/bench/bench_load.py [CLIENTS]
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from builder.source import load  # noqa: E402

CASE = """\
case: client-{0}
client: {{name: Client {0}, age: {1}, about: "Back to the gym after a year off"}}
story: >
{2}
readings:
  ankle_dorsiflexion: [{3}, {4}, {4}]
  heel_pain: false
  stance: hip
objectives: [choose-ankle-plan]
retest:
  after: 3 weeks
  readings: {{ankle_dorsiflexion: [36, 37, 36]}}
"""
STORY = "  They come back after a year off and want to squat deep again soon.\n" * 6


def timed(course: Path) -> float:
    start = time.perf_counter()
    load(course)
    return time.perf_counter() - start


def main(clients: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        os.environ["XDG_CACHE_HOME"] = str(Path(folder, "cache"))
        course = Path(folder, "course")
        shutil.copytree(ROOT / "tests" / "courses" / "ankle", course)
        load(course)
        for number in range(clients):
            text = CASE.format(number, 20 + number % 60, STORY, 20 + number % 30, 21 + number % 30)
            Path(course, "cases", f"client-{number}.yml").write_text(text, "utf-8")
        print(f"{clients} clients, a file each: cold {timed(course):.2f} s, warm {timed(course):.2f} s")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
