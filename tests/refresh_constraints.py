"""Writes constraints/ anew: the newest versions within the ranges of pyproject.toml, with all hashes of each.

Usage: bash tests/venv renew && .venv/bin/python tests/refresh_constraints.py

`run.txt` holds what running needs and what installs this project, a file named after an extra what that extra
adds. The versions hold from the oldest Python's first release on (distributions keep early releases), on any
system.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]
HEAD = "# Exact versions with their hashes. Renewed by tests/refresh_constraints.py\n"
EDITABLE = "editables"
"""What hatchling asks for beside itself to install a folder as it lies."""


def main() -> None:
    pyproject = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    project = pyproject["project"]
    extras = sorted(project["optional-dependencies"])
    build = [*pyproject["build-system"]["requires"], EDITABLE]
    oldest = project["requires-python"].removeprefix(">=")
    with tempfile.TemporaryDirectory() as folder:
        whole = Path(folder, "whole.txt")
        whole.write_text("".join(pins(oldest, build, extras)), encoding="utf-8")
        run = pins(oldest, build, [], whole)
        write("run", run)
        for extra in extras:
            write(extra, [pin for pin in pins(oldest, build, [extra], whole) if pin not in run])


def pins(oldest: str, build: list[str], extras: list[str], within: Path | None = None) -> list[str]:
    """One text a package, its hashes among it."""
    how = ["--universal", "--python-version", oldest, "--fork-strategy", "fewest", "--only-binary", ":all:"]
    form = ["--generate-hashes", "--no-header", "--no-annotate", "--quiet"]
    asked = [word for extra in extras for word in ("--extra", extra)]
    bounds = ["--constraints", within] if within else []
    uv = [Path(sys.executable).with_name("uv"), "pip", "compile", "pyproject.toml", "-"]
    done = subprocess.run(
        [*uv, *how, *form, *asked, *bounds],
        cwd=ROOT,
        input="\n".join(build),
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    )
    return re.split(r"^(?=[\w])", done.stdout, flags=re.M)[1:]


def write(name: str, pins: list[str]) -> None:
    (ROOT / "constraints" / f"{name}.txt").write_text(HEAD + "".join(pins), encoding="utf-8")


if __name__ == "__main__":
    main()
