"""What is installed is whole: a wheel, alone, checks and builds a course."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, unpacked into an empty folder."""
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation"]
    subprocess.run([*command, "--wheel-dir", folder, ROOT], check=True, capture_output=True)
    (wheel,) = folder.glob("casetrue-*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "unpacked")
    return folder / "unpacked"


def casetrue(installed: Path, *arguments: str | Path) -> subprocess.CompletedProcess[str]:
    """The command, from the unpacked wheel and from nowhere else."""
    return subprocess.run(
        [sys.executable, "-P", "-c", "from builder.cli.main import main; main()", *arguments],
        cwd=installed.parent,
        env={**os.environ, "PYTHONPATH": str(installed)},
        capture_output=True,
        text=True,
    )


def test_the_schemas_travel_inside(installed: Path):
    inside = {path.name for path in (installed / "builder" / "schemas").iterdir()}
    assert inside == {path.name for path in (ROOT / "schemas").iterdir()}


def test_the_words_of_every_language_travel_inside(installed: Path):
    inside = {path.relative_to(installed) for path in installed.rglob("*.po")}
    assert inside == {
        path.relative_to(ROOT) for path in (ROOT / "builder" / "words" / "locales").rglob("*.po")
    }
    assert Path("builder/words/locales/es/LC_MESSAGES/casetrue.po") in inside


def test_a_course_is_checked_and_built_from_the_wheel_alone(installed: Path, small_course: Path):
    checked = casetrue(installed, "check", "--course", small_course)
    assert checked.returncode == 0, checked.stdout + checked.stderr
    built = casetrue(installed, "build", "--course", small_course, "--out", small_course.parent / "site")
    assert built.returncode == 0, built.stdout + built.stderr
    there = {
        str(path.relative_to(small_course.parent / "site"))
        for path in (small_course.parent / "site").rglob("*")
    }
    assert {"index.html", "clients/tern-03.html", "assets/casetrue.js", "assets/casetrue.css"} <= there
