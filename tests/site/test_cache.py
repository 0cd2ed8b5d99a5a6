"""The hash of the program changes with every file and library that a result may rest on."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import platformdirs
import pytest

import builder
from builder.site.cache import OWN, digest, program, read_sealed, write_sealed

now = program.__wrapped__
"""Not the one that this process keeps."""


@pytest.fixture
def a_program(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A program of one file of each kind, with its schemas and one library beside it."""
    for name in ("program/a.py", "program/site/b.html.j2", "program/site/c.css", "schemas/d.schema.json"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("one", "utf-8")
    (tmp_path / "libraries" / "platformdirs").mkdir(parents=True)
    (tmp_path / "libraries" / "markdown-1.0.dist-info").mkdir()
    monkeypatch.setattr(builder, "__file__", str(tmp_path / "program" / "__init__.py"))
    beside = tmp_path / "libraries" / "platformdirs" / "__init__.py"
    monkeypatch.setattr(platformdirs, "__file__", str(beside))
    return tmp_path


@pytest.mark.parametrize(
    "change",
    [
        lambda folder: (folder / "program" / "a.py").write_text("two", "utf-8"),
        lambda folder: (folder / "program" / "site" / "b.html.j2").write_text("two", "utf-8"),
        lambda folder: (folder / "program" / "site" / "c.css").write_text("two", "utf-8"),
        lambda folder: (folder / "schemas" / "d.schema.json").write_text("two", "utf-8"),
        lambda folder: (folder / "program" / "more.py").write_text("", "utf-8"),
        lambda folder: (folder / "program" / "a.py").rename(folder / "program" / "b.py"),
        lambda folder: (folder / "libraries" / "markdown-1.0.dist-info").rename(
            folder / "libraries" / "markdown-1.1.dist-info"
        ),
        lambda folder: (folder / "libraries" / "another-1.0.dist-info").mkdir(),
    ],
)
def test_any_change_of_the_program_or_its_libraries_makes_all_anew(
    a_program: Path, change: Callable[[Path], object]
) -> None:
    before = now()
    assert now() == before
    change(a_program)
    assert now() != before


def test_parts_of_a_digest_are_kept_apart() -> None:
    assert digest(b"ab", b"c") != digest(b"a", b"bc")


def test_one_changed_byte_of_a_sealed_file_is_noticed(tmp_path: Path) -> None:
    path = tmp_path / "sealed"
    write_sealed(path, b"what it holds", b"about")
    assert read_sealed(path, b"about") == b"what it holds"
    assert read_sealed(path, b"another") is None
    data = path.read_bytes()
    for index in range(len(data)):
        path.write_bytes(data[:index] + bytes([data[index] ^ 1]) + data[index + 1 :])
        assert read_sealed(path, b"about") is None


def test_a_sealed_file_that_cannot_be_written_is_left_out(tmp_path: Path) -> None:
    (tmp_path / "folder").write_text("a file in the way")
    write_sealed(tmp_path / "folder" / "sealed", b"")
    assert read_sealed(tmp_path / "folder" / "sealed") is None


def test_every_kind_of_file_of_the_program_counts() -> None:
    package = Path(builder.__file__).parent
    kinds = {path.suffix for path in package.rglob("*") if path.is_file() and path.suffix != ".pyc"}
    assert kinds - set(OWN) <= {"", ".md", ".pot", ".typed"}
