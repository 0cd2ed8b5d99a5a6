"""Writes constraints.txt anew: the newest versions within the ranges of pyproject.toml.

Usage: .venv/bin/python tests/refresh_constraints.py

Only versions that Python 3.11.0 can use, since distributions keep early releases of it.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]
OLDEST = "3.11.0"


def main() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    wanted = project["dependencies"] + project["optional-dependencies"]["test"]
    with tempfile.TemporaryDirectory() as folder:
        report = Path(folder, "report.json")
        resolve = [sys.executable, "-m", "pip", "install", "--quiet", "--dry-run", "--ignore-installed"]
        for_oldest = ["--python-version", OLDEST, "--only-binary", ":all:", "--target", folder]
        subprocess.run([*resolve, *for_oldest, "--report", report, *wanted], check=True)
        found = [part["metadata"] for part in json.loads(report.read_text("utf-8"))["install"]]
    constraints = ROOT / "constraints.txt"
    head = [line for line in constraints.read_text("utf-8").splitlines() if line.startswith("#")]
    lines = sorted((f"{each['name']}=={each['version']}" for each in found), key=str.lower)
    constraints.write_text("\n".join([*head, *lines, ""]), encoding="utf-8")


if __name__ == "__main__":
    main()
