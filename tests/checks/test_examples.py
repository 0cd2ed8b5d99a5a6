"""Every example course: sound ones are clean, spoilt ones are told in full, and every code is spoilt once."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from builder.checks import CHECKS, check
from builder.problems import CODES
from builder.source import load

from ..examples.reading import BAD, GOOD, TODAY, Example, read

SOUND = sorted(folder for folder in GOOD.iterdir() if folder.is_dir())
SPOILT = [read(path) for path in sorted(BAD.glob("*.txt"))]

OUT_OF_REACH = {"proof-unfinished"}
"""Needs a table too large for an example; see `test_proof_unfinished`."""


def told(course: Path, today: str) -> list[str]:
    return [
        f"{problem.code} {problem.subject} {problem.file}:{problem.line}:{problem.column}"
        for problem in check(load(course), today)
    ]


def test_there_are_examples():
    assert SOUND
    assert SPOILT
    assert {path.suffix for path in BAD.iterdir()} == {".txt"}


@pytest.mark.parametrize("course", SOUND, ids=lambda course: course.name)
def test_sound_courses_are_clean(course: Path):
    assert told(course, TODAY) == []


@pytest.mark.parametrize("example", SPOILT, ids=lambda example: example.name)
def test_spoilt_courses_are_told_in_full(example: Example, tmp_path: Path):
    assert example.expects, "an example says what it expects"
    assert told(example.write(tmp_path / "course"), example.today) == example.expects


@pytest.mark.parametrize("example", SPOILT, ids=lambda example: example.name)
def test_every_place_lies_in_its_file(example: Example, tmp_path: Path):
    course = example.write(tmp_path / "course")
    for problem in check(load(course), example.today):
        lines = (course / problem.file).read_text(encoding="utf-8").splitlines()
        assert 1 <= problem.line <= max(1, len(lines))
        assert 1 <= problem.column <= len(lines[problem.line - 1]) + 1


@pytest.mark.parametrize("example", SPOILT, ids=lambda example: example.name)
def test_every_message_is_a_sentence_with_a_hint(example: Example, tmp_path: Path):
    for problem in check(load(example.write(tmp_path / "course")), example.today):
        assert problem.severity == CODES[problem.code].severity
        assert problem.message.endswith(".")
        assert "\n" not in problem.message
        assert problem.hint
        json.dumps(problem.example)


def test_every_code_has_an_example():
    shown = {line.split()[0] for example in SPOILT for line in example.expects}
    assert shown | OUT_OF_REACH == set(CODES)
    assert not shown & OUT_OF_REACH


def test_every_code_is_found_by_a_check_or_while_loading():
    loading = {"yaml", "schema", "file-refused", "lesson-bound", "file-ignored"}
    assert set(CODES) - set(CHECKS) == loading
    assert set(CHECKS) <= set(CODES)
