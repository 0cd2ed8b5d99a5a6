"""Fixtures of the site's tests.

- `build`: `build(course, out, *options)` runs `casetrue build` and returns its result.
- `ankle_site`: the built site of `courses/ankle`, to be read only.
- `golden`: `golden(name, text)` compares with `golden/name`, or writes it with `--refresh-golden`.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli.build import command

ANKLE = Path(__file__).parents[1] / "courses" / "ankle"
GOLDEN = Path(__file__).parent / "golden"


def run_build(course: Path, out: Path) -> Result:
    return CliRunner().invoke(command, ["--course", str(course), "--out", str(out)])


@pytest.fixture
def build() -> Callable[[Path, Path], Result]:
    return run_build


@pytest.fixture(scope="session")
def ankle_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("ankle")
    course = Path(shutil.copytree(ANKLE, folder / "course"))
    result = run_build(course, folder / "site")
    assert result.exit_code == 0, result.output
    return folder / "site"


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    def compare(name: str, text: str) -> None:
        file = GOLDEN / name
        if request.config.getoption("--refresh-golden"):
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, "utf-8")
        assert text == file.read_text("utf-8"), "read the change, then run pytest with --refresh-golden"

    return compare
