"""Ordinary trouble ends a command with a plain sentence: no traceback, no talk of a fault in the program."""

from __future__ import annotations

import errno
import os
import resource
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.cli import main as cli
from builder.cli import making

COMMAND = [sys.executable, "-m", "builder.cli"]


@pytest.fixture
def tell(run: Callable[..., object], monkeypatch: pytest.MonkeyPatch) -> Callable[..., str]:
    """What a command that ends with exit code 2 tells, without the lines on its use."""

    def told(*arguments: object) -> str:
        result = run(*arguments)
        assert result.exit_code == 2, result.output
        assert "fault in itself" not in result.stderr
        assert "Errno" not in result.stderr
        return result.stderr

    return told


def failing(code: int, *where: object) -> Callable[..., None]:
    def fail(*_: object, **__: object) -> None:
        raise OSError(code, os.strerror(code), *map(str, where))

    return fail


def test_a_full_disk(
    tell: Callable[..., str],
    run: Callable[..., object],
    small_course: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    out = tmp_path / "site"
    run("build", "--course", small_course, "--out", out)
    before = (out / "index.html").read_bytes()
    (small_course / "lessons" / "more.txt").write_text("more", "utf-8")
    monkeypatch.setattr(making, "write_manifest", failing(errno.ENOSPC))
    told = tell("build", "--course", small_course, "--out", out)
    assert f"Error: {out}: the disk is full. Make room, then try again. The site was not built" in told
    assert (out / "index.html").read_bytes() == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["ankle", "site"]


def test_a_file_that_the_disk_does_not_take(small_course: Path, tmp_path: Path) -> None:
    """The system itself refuses any file of more than 16 kB (setrlimit, POSIX.1-2017)."""
    (small_course / "lessons" / "large.txt").write_bytes(bytes(20_000))
    done = subprocess.run(
        [*COMMAND, "build", "--course", str(small_course), "--out", str(tmp_path / "site")],
        capture_output=True,
        text=True,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (16_000, 16_000)),
        env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"},
    )
    assert done.returncode == 2, done.stderr
    assert "too large for this disk" in done.stderr
    assert "Traceback" not in done.stderr
    assert sorted(path.name for path in tmp_path.iterdir()) == ["ankle"]


def test_a_file_beside_lessons_that_may_not_be_read(
    tell: Callable[..., str], small_course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    secret = small_course / "lessons" / "secret.png"
    secret.write_bytes(b"")
    monkeypatch.setattr(shutil, "copyfile", failing(errno.EACCES, secret))
    told = tell("build", "--course", small_course, "--out", tmp_path / "site")
    assert f"{secret}: you may not read or change it." in told


@pytest.mark.parametrize("parent", ["/proc", "/sys"])
def test_a_parent_that_takes_no_folder(tell: Callable[..., str], small_course: Path, parent: str) -> None:
    told = tell("build", "--course", small_course, "--out", f"{parent}/site")
    assert f"No site can be made at {parent}/site" in told


@pytest.mark.parametrize("command", [["check"], ["build", "--out", "site"], ["serve"]])
@pytest.mark.parametrize("epoch", ["soon", "", "1e3", "9" * 30])
def test_a_day_that_is_none(
    tell: Callable[..., str],
    small_course: Path,
    monkeypatch: pytest.MonkeyPatch,
    command: list[str],
    epoch: str,
) -> None:
    monkeypatch.chdir(small_course.parent)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)
    assert "SOURCE_DATE_EPOCH is not a number of seconds." in tell(*command, "--course", small_course)


def test_a_course_that_is_a_link_to_itself(tell: Callable[..., str], tmp_path: Path) -> None:
    (tmp_path / "course").symlink_to("course")
    for command in (["check"], ["build", "--out", tmp_path / "site"], ["serve"], ["new", "case", "a"]):
        assert "There is no folder" in tell(*command, "--course", tmp_path / "course")


@pytest.mark.parametrize("command", cli.COMMANDS)
def test_trouble_in_any_command(
    tell: Callable[..., str], small_course: Path, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    monkeypatch.setattr("builder.source.load", failing(errno.EIO, "course.yml"))
    more = {
        "build": ["--out", small_course.parent / "site"],
        "edition": ["1.0"],
        "explain": ["tern-03"],
        "new": ["case", "a"],
        "records": ["x.json"],
        "review": ["plan", "--role", "coach", "--by", "Ada"],
        "task": ["ankle-check", "--until", "2099-01-01"],
    }
    told = tell(command, *more.get(command, []), "--course", small_course)
    assert told.endswith(
        "Error: course.yml: the disk or the network does not answer. Check it, then try again.\n"
    )


def test_trouble_is_traced_where_that_is_asked_for(
    run: Callable[..., object], small_course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CASETRUE_TRACE", "1")
    monkeypatch.setattr("builder.source.load", failing(errno.EIO, "course.yml"))
    with pytest.raises(OSError, match=r"course\.yml"):
        run("check", "--course", small_course)


@pytest.mark.parametrize(
    "arguments", [["check"], ["check", "--format", "json"], ["--help"], ["explain", "tern-03"]]
)
def test_output_that_cannot_be_written(small_course: Path, arguments: list[str]) -> None:
    """/dev/full takes nothing, as a full disk does (full(4))."""
    course = [] if arguments == ["--help"] else ["--course", str(small_course)]
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run([*COMMAND, *arguments, *course], stdout=full, stderr=subprocess.PIPE, text=True)
        assert done.returncode == 2
        assert done.stderr == "Error: The disk is full. Make room, then try again.\n"
        silent = subprocess.run([*COMMAND, *arguments, *course], stdout=full, stderr=full)
        assert silent.returncode == 2


@pytest.mark.parametrize("form", ["text", "json", "sarif"])
def test_a_reader_that_goes_away(small_course: Path, form: str) -> None:
    """As `casetrue check | head -1`: the reader is gone before anything is written."""
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run(
        [*COMMAND, "check", "--course", str(small_course), "--format", form],
        stdout=writing,
        stderr=subprocess.PIPE,
        text=True,
    )
    os.close(writing)
    assert (done.returncode, done.stderr) == (1, "")


@pytest.mark.parametrize("columns", ["0", "1", "19", "-5", "²", "", "wide", "9" * 5000])
def test_a_width_that_cannot_be_one_hides_nothing(
    run: Callable[..., object], small_course: Path, monkeypatch: pytest.MonkeyPatch, columns: str
) -> None:
    monkeypatch.delenv("COLUMNS", raising=False)
    plain = run("check", "--course", small_course).stdout
    monkeypatch.setenv("COLUMNS", columns)
    assert run("check", "--course", small_course).stdout == plain
    assert "review-missing" in plain


def test_a_narrow_width_is_kept(
    run: Callable[..., object], small_course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "30")
    lines = run("check", "--course", small_course).stdout.splitlines()
    assert max(map(len, lines)) <= 30
