"""Bad examples: a sound course, the files that spoil it, and every problem that must be told.

First what is wrong, in words. Then lines `expects CODE SUBJECT FILE:LINE:COLUMN`, one a problem, in file
order; `on NAME` takes another course of `good/` than `plain`; `today DATE` sets the day; `link FILE TARGET`
makes a link. Then `--- FILE` and what it holds.
"""

from __future__ import annotations

import re
import shutil
from dataclasses import dataclass
from pathlib import Path

GOOD = Path(__file__).parent / "good"
BAD = Path(__file__).parent / "bad"
TODAY = "2026-06-01"


@dataclass(frozen=True)
class Example:
    name: str
    expects: list[str]
    on: str
    today: str
    files: dict[str, str]
    links: dict[str, str]

    def write(self, folder: Path) -> Path:
        shutil.copytree(GOOD / self.on, folder)
        for name, text in self.files.items():
            (folder / name).parent.mkdir(exist_ok=True)
            (folder / name).write_text(text, encoding="utf-8")
        for name, target in self.links.items():
            (folder / name).symlink_to(target)
        return folder


def read(path: Path) -> Example:
    head, *parts = re.split(r"^--- (.+)\n", path.read_text(encoding="utf-8"), flags=re.MULTILINE)
    lines = head.splitlines()
    said = {key: value for key, _, value in (line.partition(" ") for line in lines) if key in ("on", "today")}
    expects = [line.removeprefix("expects ") for line in lines if line.startswith("expects ")]
    links = dict(line.split()[1:] for line in lines if line.startswith("link "))
    files = dict(zip(parts[::2], parts[1::2], strict=True))
    return Example(path.stem, expects, said.get("on", "plain"), said.get("today", TODAY), files, links)
