"""Fixtures for every test.

- `small_course`: a fresh copy of `courses/ankle`, a small sound course, to read or to spoil.
- `drill_course`: that course with the positions and drills of `courses/drills`.
- `course_folder`: `course_folder({"course.yml": "..."})` writes a course of these files; with
  `base=small_course` it writes them over that course, and None takes a file away. Texts are dedented.
"""

from __future__ import annotations

import os
import shutil
import tempfile
import textwrap
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from hypothesis import settings

from tests import tools

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
"""A slow machine must not fail a law."""


def pytest_configure(config: pytest.Config) -> None:
    """What is kept between runs is kept for this run alone."""
    folder = tempfile.mkdtemp(prefix="casetrue-kept-")
    os.environ["XDG_CACHE_HOME"] = folder
    config.add_cleanup(lambda: shutil.rmtree(folder, ignore_errors=True))


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if not hasattr(config, "workerinput"):
        refuse_old_browsers([item.nodeid for item in items])


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_node_collection_finished(ids: list[str]) -> None:
    refuse_old_browsers(ids)


def refuse_old_browsers(ids: list[str]) -> None:
    """Says once, before any test runs, which browser is missing or too old for these tests."""
    if any(each.startswith("tests/browser/") for each in ids) and (lacks := tools.lacks(tools.BROWSERS)):
        raise pytest.UsageError(tools.sentence(lacks))


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--refresh-golden", action="store_true", help="Write golden files anew; read them in the diff."
    )


ANKLE = Path(__file__).parent / "courses" / "ankle"


@pytest.fixture
def small_course(tmp_path: Path) -> Path:
    return Path(shutil.copytree(ANKLE, tmp_path / "ankle"))


@pytest.fixture
def course_folder(tmp_path: Path) -> Callable[..., Path]:
    def write(files: Mapping[str, str | bytes | None], base: Path | None = None) -> Path:
        folder = base or tmp_path / "course"
        folder.mkdir(exist_ok=True)
        for name, content in files.items():
            path = folder / name
            if content is None:
                path.unlink()
                continue
            path.parent.mkdir(parents=True, exist_ok=True)
            raw = content if isinstance(content, bytes) else textwrap.dedent(content).lstrip("\n").encode()
            path.write_bytes(raw)
        return folder

    return write


DRILLS = Path(__file__).parent / "courses" / "drills"


@pytest.fixture
def drill_course(small_course: Path) -> Path:
    """The small course with positions and drills."""
    return Path(shutil.copytree(DRILLS, small_course, dirs_exist_ok=True))
