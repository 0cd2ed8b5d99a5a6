"""The guide for owners is one page, and what it says to type works."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

from click.testing import CliRunner

from builder.cli.main import casetrue

from .records.make import attempt, raw

ROOT = Path(__file__).parents[1]
GUIDE = (ROOT / "OWNERS.md").read_text("utf-8")
COMMANDS = re.findall(r"^casetrue .*$", GUIDE, re.MULTILINE)


def test_it_is_one_page() -> None:
    assert len(GUIDE.split()) < 700
    assert len(GUIDE.splitlines()) < 75


def test_what_it_says_to_type_works(tmp_path: Path, monkeypatch) -> None:
    here = tmp_path / "gym"
    shutil.copytree(ROOT / "course_src", here / "course_src")
    (here / "handed-over").mkdir()
    for name in ("Wren", "Dee"):
        record = raw(attempt("q-made", 1, mark=0), learner=name).replace(b"ankle-squat", b"tallow-yard")
        (here / "handed-over" / f"{name}.json").write_bytes(record)
    monkeypatch.chdir(here)
    assert len(COMMANDS) == 3
    for command in COMMANDS:
        _, *given = shlex.split(command)
        files = [str(file) for pattern in given if "*" in pattern for file in sorted(here.glob(pattern))]
        plain = [one for one in given if "*" not in one]
        result = CliRunner().invoke(casetrue, [plain[0], *files, *plain[1:]])
        assert result.exit_code == 0, (command, result.output)
    assert (tmp_path / "our-site" / "index.html").is_file()
    assert (tmp_path / "monday" / "index.html").is_file()
    assert all((tmp_path / "monday" / name).is_file() for name in re.findall(r"`(\w+\.(?:csv|html))`", GUIDE))


def test_it_names_what_pages_and_commands_really_say() -> None:
    site = ROOT / "builder" / "site"
    sayers = [*(site / "templates").rglob("*.j2"), *(site / "web").glob("*.js")]
    said = "".join(file.read_text("utf-8") for file in sayers)
    for words in re.findall(r"\"([A-Z][^\"]+)\"", " ".join(GUIDE.split())):
        assert words in said, words
