"""Each file in `bad/KIND/` and, beside it as `.txt`, every problem it must raise, word for word.

A line of the `.txt` reads `line:column code subject: message | hint`; the last names what still loads.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.source.contents import Content, content
from builder.source.kinds import KINDS, Kind

BAD = Path(__file__).parent / "bad"
FILES = sorted(BAD.rglob("*.yml"))
BY_FOLDER: dict[str, Kind] = {kind.where.removesuffix(".yml").removesuffix("/"): kind for kind in KINDS}


def told(read: Content) -> list[str]:
    lines = [
        f"{one.line}:{one.column} {one.code} {one.subject}: {one.message} | {one.hint}"
        for one in read.problems
    ]
    return [*lines, f"loads: {', '.join(unit.name for unit in read.units)}"]


def test_there_are_bad_files() -> None:
    assert len(FILES) > 20


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_a_bad_file_raises_exactly_its_problems(path: Path) -> None:
    read = content(BY_FOLDER[path.parent.name], path.name, path.read_text("utf-8"))
    assert told(read) == path.with_suffix(".txt").read_text("utf-8").splitlines()


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_no_message_speaks_of_schemas_or_python(path: Path) -> None:
    text = path.with_suffix(".txt").read_text("utf-8").lower()
    for word in ("none type", "dict", "schema is", "property", "instance", "regex", "{}'", "traceback"):
        assert word not in text
