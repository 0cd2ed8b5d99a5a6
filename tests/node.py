"""Runs the tests of the browser's pure modules, which are written for Node's own test runner."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path


def run_node_tests(file: Path, passing: int, **environment: str) -> None:
    """Fails unless exactly `passing` tests of the file pass, and where Node is missing."""
    node = shutil.which("node")
    assert node, "Node is needed to test the browser's modules; see README"
    done = subprocess.run(
        [node, "--test", "--test-reporter=tap", str(file)],
        env={**os.environ, **environment},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert f"# pass {passing}\n" in done.stdout, done.stdout
