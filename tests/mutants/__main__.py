"""Says how many small faults in a room's code the room's own tests notice.

Usage: .venv/bin/python -m tests.mutants [--sample 60] [--seed 1] ROOM_OR_FILE...

A room is a folder of `builder/`; a file stands for itself within its room. Without any, all rooms that have
tests of their own. Each mutant has one thing changed, in memory alone, and the room's tests run until one
fails. What `allowed.toml` lists changes no behaviour and is not counted.
"""

from __future__ import annotations

import argparse
import os
import random
import tomllib
from dataclasses import dataclass
from pathlib import Path

from builder.statistics import wilson

from .changes import Mutant, mutants_of
from .runs import ROOT, outcomes

BUILDER = ROOT / "builder"
BESIDES = {"questions": ("marking",), "exercises": ("marking",)}
"""Folders of tests that a room has besides the one of its name."""
TERMINAL = os.fdopen(os.dup(1), "w")
"""Where progress is told while pytest has the other one."""


@dataclass(frozen=True, slots=True)
class Tally:
    room: str
    found: list[tuple[Mutant, str]]

    @property
    def survivors(self) -> list[Mutant]:
        return [mutant for mutant, outcome in self.found if outcome == "survived"]

    def row(self) -> str:
        of = len(self.found)
        killed = of - len(self.survivors)
        low, high = wilson(killed, of) if of else (0, 1)
        rate = f"{killed / of:.1%}" if of else "-"
        return f"{self.room:<14}{of:>8}{killed:>8}{of - killed:>10}{rate:>8}   {low:.1%} to {high:.1%}"


def main() -> None:
    options = _options()
    tallies = [_try(target, options) for target in options.targets or _rooms()]
    print(f"\n{'room':<14}{'mutants':>8}{'killed':>8}{'survived':>10}{'rate':>8}   95 % (Wilson)")
    for tally in tallies:
        print(tally.row())
    for tally in tallies:
        for one in tally.survivors:
            print(f"\n{one.file.relative_to(ROOT)}:{one.line}: {one.written}\n    {one.was}\n  → {one.now}")


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("targets", nargs="*", metavar="ROOM_OR_FILE")
    parser.add_argument("--sample", type=int, default=60, help="mutants of each room; 0 for all")
    parser.add_argument("--seed", type=int, default=1)
    return parser.parse_args()


def _rooms() -> list[str]:
    return [
        folder.name
        for folder in sorted(BUILDER.iterdir())
        if folder.is_dir() and folder.name[0] not in "._" and (ROOT / "tests" / folder.name).is_dir()
    ]


def _try(target: str, options: argparse.Namespace) -> Tally:
    path = BUILDER / target if (BUILDER / target).is_dir() else ROOT / target
    room = path.resolve().relative_to(BUILDER).parts[0]
    files = [path] if path.is_file() else sorted(path.rglob("*.py"))
    mutants = [one for file in files for one in mutants_of(file) if not _is_allowed(one)]
    if options.sample and options.sample < len(mutants):
        chosen = random.Random(f"{options.seed} {target}").sample(range(len(mutants)), options.sample)
        mutants = [mutants[number] for number in sorted(chosen)]
    tests = [ROOT / "tests" / name for name in (room, *BESIDES.get(room, ()))]
    print(f"{target}, tried on {', '.join(str(folder.relative_to(ROOT)) for folder in tests)}", flush=True)
    found = outcomes([str(folder) for folder in tests if folder.is_dir()], mutants, _tell)
    return Tally(target if path.is_dir() else path.name, found)


def _tell(line: str) -> None:
    print(line, file=TERMINAL, flush=True)


def _is_allowed(mutant: Mutant) -> bool:
    where = mutant.file.relative_to(ROOT).as_posix()
    return (where, mutant.written, mutant.was, mutant.now) in ALLOWED


ALLOWED = {
    (file, one["line"], one["was"], one["now"])
    for file, several in tomllib.loads((Path(__file__).parent / "allowed.toml").read_text("utf-8")).items()
    for one in several
}


if __name__ == "__main__":
    main()
