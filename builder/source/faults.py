"""What a schema finds wrong, in an educator's words."""

from __future__ import annotations

from collections.abc import Iterator

from jsonschema import ValidationError

from builder.course import Path

from .schemas import shell_validator, validator
from .yaml_tree import Node


class Breach:
    """One fault of shape: where, and the words for it. `at_key` places it at the key, not at its value."""

    __slots__ = ("at_key", "hint", "message", "path")

    def __init__(self, path: Path, message: str, hint: str = "", at_key: bool = False) -> None:
        self.path, self.message, self.hint, self.at_key = path, message, hint, at_key


def breaches(unit: Node, part: str) -> Iterator[Breach]:
    """Every fault of a value against a part of the schemas."""
    for error in validator(part).iter_errors(unit):
        yield from _told(error)


def _told(error: ValidationError) -> Iterator[Breach]:
    yield Breach(tuple(error.absolute_path), error.message)


def shell_breaches(value: Node, schema: str) -> Iterator[Breach]:
    """What is wrong with a file around its units."""
    for error in shell_validator(schema).iter_errors(value):
        yield from _told(error)
