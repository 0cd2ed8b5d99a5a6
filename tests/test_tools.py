"""What the tests need of the machine is told once, in a sentence."""

from __future__ import annotations

import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from tests import tools

ROOT = Path(__file__).parents[1]
SOUND = {
    "chromium": "Chromium 156.0.8078.108 built on Debian GNU/Linux 12 (bookworm)\n",
    "chromedriver": "ChromeDriver 156.0.8078.108 (730482a940ce-refs/branch-heads/8078@{#2244})\n",
    "firefox-esr": "Mozilla Firefox 153.7.0esr\n",
    "node": "v20.20.2\n",
    "npm": "11.19.1\n",
}
"""As these programs say it."""


def told(**said: str) -> list[str]:
    here = SOUND | {name.replace("_", "-"): text for name, text in said.items()}
    return [lack.why for lack in tools.lacks(ask=here.__getitem__)]


def test_what_is_there_is_not_lacking():
    assert told() == []
    assert told(firefox_esr="Mozilla Firefox 140.12.0esr\n", node="v18.19.0\n", npm="9.2.0\n") == []


def test_what_is_too_old_or_missing_is_told():
    assert told(firefox_esr="Mozilla Firefox 128.14.0esr") == [
        "firefox-esr is 128.14.0, 140 or later is needed"
    ]
    assert told(node="v18.9.1", npm="") == [
        "node is 18.9.1, 18.19 or later is needed",
        "npm 9.2 or later is missing",
    ]


def test_chromium_and_its_driver_go_together():
    assert told(chromedriver="ChromeDriver 155.0.8000.1 (a1b2-refs/branch-heads/1@{#2})") == [
        "chromedriver is 155.0.8000.1, 156 or later is needed"
    ]
    assert told(chromium="Chromium 155.0.8000.1 built on Debian GNU/Linux 13 (trixie)") == [
        "chromium is 155.0.8000.1, 156 or later is needed"
    ]
    assert told(chromedriver="ChromeDriver 156.0.8078.9 (a1b2-refs/branch-heads/1@{#2})") == []
    assert told(chromedriver="") == ["chromedriver 156 or later is missing"]


def test_all_is_told_in_one_sentence():
    said = SOUND | {"firefox-esr": "Mozilla Firefox 128.14.0esr", "node": ""}
    assert tools.sentence(tools.lacks(ask=said.__getitem__)) == (
        "Cannot test: firefox-esr is 128.14.0, 140 or later is needed; node 18.19 or later is missing. "
        "Packages of Debian: firefox-esr nodejs."
    )


@pytest.mark.parametrize("how", ["-n0", "-n1"])
def test_a_browser_too_old_is_told_once_before_any_test(tmp_path: Path, how: str):
    old = tmp_path / "firefox-esr"
    old.write_text("#!/bin/sh\necho Mozilla Firefox 128.14.0esr\n", encoding="utf-8")
    old.chmod(0o755)
    path = f"{tmp_path}{os.pathsep}{os.environ['PATH']}"
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", how, "tests/browser/test_site.py"],
        cwd=ROOT,
        env={**os.environ, "PATH": path},
        capture_output=True,
        text=True,
    )
    assert done.returncode == pytest.ExitCode.USAGE_ERROR
    said = done.stdout + done.stderr
    assert said.count("firefox-esr is 128.14.0, 140 or later is needed") == 1, said
    assert "Traceback" not in said


def test_the_developers_guide_names_the_least_versions():
    guide = " ".join((ROOT / "DEVELOPERS.md").read_text("utf-8").split())
    python = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["requires-python"]
    assert f"Python {python.removeprefix('>=')}" in guide
    for tool in tools.TOOLS:
        assert f"{tool.command} {tools.written(tool.least)}" in guide, tool.command
