"""The pure modules of search and of the list of clients, run by Node."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path


def test_the_pure_modules_of_looking_up() -> None:
    node = shutil.which("node")
    assert node, "Node is needed to test the browser's modules; see README"
    tests = Path(__file__).with_name("lookup.test.js")
    done = subprocess.run([node, "--test", str(tests)], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "# pass 6" in done.stdout, done.stdout
