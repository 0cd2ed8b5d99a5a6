"""Patterns hold for a whole text: a line feed at its end is part of it, in YAML and JSON as in the browser.

In Python's `re` a `$` also stands before a line feed that ends the text; ECMA-262, which JSON Schema and
browsers speak, knows no such thing.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import builder
from builder.checks import check
from builder.source import load
from builder.source.schemas import schema_files
from builder.source.validators import Validator, expression

FOLDER = Path(builder.__file__).parent


def _patterns(schema: Any) -> Iterator[str]:
    if isinstance(schema, list):
        for part in schema:
            yield from _patterns(part)
    elif isinstance(schema, dict):
        if isinstance(schema.get("pattern"), str):
            yield schema["pattern"]
        for part in schema.values():
            yield from _patterns(part)


PATTERNS = sorted({pattern for schema in schema_files().values() for pattern in _patterns(schema)})


def test_there_are_patterns() -> None:
    assert len(PATTERNS) >= 10
    assert all(pattern.startswith("^") and pattern.endswith("$") for pattern in PATTERNS)


@pytest.mark.parametrize("pattern", PATTERNS)
@settings(max_examples=20)
@given(data=st.data())
def test_a_pattern_of_the_schemas_takes_no_line_feed_at_the_end(pattern: str, data: st.DataObject) -> None:
    text = data.draw(st.from_regex(expression(pattern)))
    fits = Validator({"pattern": pattern})
    assert fits.is_valid(text)
    assert not fits.is_valid(text + "\n")


def test_an_end_is_told_from_a_dollar() -> None:
    assert expression(r"^(?!index$)[a$]\$$").pattern == r"^(?!index\Z)[a$]\$\Z"
    assert not Validator({"pattern": "^(?!index$)[a-z\n]+$"}).is_valid("index")
    assert Validator({"pattern": "^(?!index$)[a-z\n]+$"}).is_valid("index\n")


def _written(call: ast.Call) -> Iterator[str]:
    """The parts of a regular expression as written, what is put in by an f-string left out."""
    first = call.args[0] if call.args else None
    if first is None or isinstance(first, ast.Call):
        return
    for node in ast.walk(first):
        if isinstance(node, ast.Constant) and isinstance(node.value, str | bytes):
            yield node.value if isinstance(node.value, str) else node.value.decode("latin-1")


def _expressions() -> Iterator[tuple[str, str]]:
    for path in sorted(FOLDER.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            called = node.func if isinstance(node, ast.Call) else None
            name = called.attr if isinstance(called, ast.Attribute) else getattr(called, "id", "")
            of_re = isinstance(called, ast.Attribute) and getattr(called.value, "id", "") == "re"
            if isinstance(node, ast.Call) and (of_re or name == "compile"):
                for part in _written(node):
                    yield f"{path.relative_to(FOLDER)}:{node.lineno}", part


def test_no_expression_of_the_program_ends_in_a_dollar() -> None:
    """`\\Z` says what is meant, or `fullmatch`; between lines, nothing needs it."""
    found = list(_expressions())
    assert len(found) > 40
    ends = re.compile(r"\\.|\[\^?\]?(?:\\.|[^\]\\])*\]|(\$)", re.DOTALL)
    assert [place for place, part in found if any(end[1] for end in ends.finditer(part))] == []


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("course.yml", "course: ankle-squat", 'course: "ankle-squat\\n"'),
        ("cases/clients.yml", "case: tern-03", 'case: "tern-03\\n"'),
        ("tables/plan.yml", "table: plan", 'table: "plan\\n"'),
        ("course.yml", "language: en", 'language: "en\\n"'),
    ],
)
def test_a_name_that_ends_in_a_line_feed_is_told(small_course: Path, file: str, old: str, new: str) -> None:
    path = small_course / file
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")
    assert "schema" in {one.code for one in check(load(small_course)) if one.file == file}
