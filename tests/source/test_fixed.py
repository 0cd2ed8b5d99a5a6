"""Nobody can change a course once it is loaded: its dataclasses are frozen, and what they hold is fixed."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest

from builder.course import About, Course, Origin
from builder.source import load


def parts(value: Any, at: str = "course") -> Iterator[tuple[str, Any]]:
    """Every value within a value, with the way to it."""
    yield at, value
    if dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            yield from parts(getattr(value, field.name), f"{at}.{field.name}")
    elif isinstance(value, Mapping) and not at.endswith(".marks"):
        for key, part in value.items():
            yield from parts(part, f"{at}[{key!r}]")
    elif isinstance(value, tuple | list | set | frozenset):
        for part in value:
            yield from parts(part, f"{at}[]")


def test_nothing_in_a_course_can_be_changed(drill_course: Path) -> None:
    (drill_course / "glossary.yml").write_text("terms:\n  heel: {label: Heel, text: The back.}\n", "utf-8")
    (drill_course / "wording").mkdir()
    (drill_course / "wording" / "ours.yml").write_text("wording: {retest-yes: It is}\n", "utf-8")
    (drill_course / "editions").mkdir()
    edition = '{"edition": "1.0", "date": "2026-06-01", "build": "01234567"}'
    (drill_course / "editions" / "1.0.json").write_text(edition, "utf-8")
    loaded = load(drill_course)
    mappings = 0
    for at, value in [*parts(loaded.course), *parts(loaded, "loaded")]:
        assert not isinstance(value, list | dict | set | bytearray), at
        if dataclasses.is_dataclass(value):
            field = dataclasses.fields(value)[0].name if dataclasses.fields(value) else "anything"
            with pytest.raises((dataclasses.FrozenInstanceError, TypeError)):
                setattr(value, field, None)
        if isinstance(value, Mapping):
            mappings += 1
            with pytest.raises(TypeError):
                value["x"] = None  # type: ignore[index]
            with pytest.raises(TypeError):
                del value["x"]  # type: ignore[attr-defined]
    assert mappings > 100
    filled = {at.split("[")[0].split(".")[1] for at, value in parts(loaded.course) if "." in at and value}
    assert filled == {field.name for field in dataclasses.fields(Course)}


def test_what_is_left_out_is_fixed_too() -> None:
    bare = Course(About("a", "A"))
    for at, value in [*parts(bare), *parts(Origin("x"), "origin")]:
        assert not isinstance(value, list | dict | set), at
