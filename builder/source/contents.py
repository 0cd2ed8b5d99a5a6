"""What one file holds, as it is kept for the next run."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from builder.course import Path
from builder.problems import Problem
from builder.problems.codes import severity

from .yaml_tree import Node


@dataclass(frozen=True, slots=True)
class Unit:
    """One thing that met its schema."""

    path: Path
    name: str
    value: Node


@dataclass(frozen=True, slots=True)
class Content:
    """What one file holds."""

    units: tuple[Unit, ...] = ()
    left_out: tuple[str, ...] = ()
    """Names of the units that did not meet their schema."""
    problems: tuple[Problem, ...] = ()


def kept(read: Content) -> list[Any]:
    """A content as JSON can hold it."""
    return [
        [[unit.path, unit.name, unit.value] for unit in read.units],
        read.left_out,
        [
            [one.code, one.subject, one.file, one.line, one.column, one.message, one.hint]
            for one in read.problems
        ],
    ]


def unkept(values: list[Any]) -> Content:
    """The content that `kept` made the values from."""
    units, left_out, problems = values
    return Content(
        tuple(Unit(tuple(path), name, value) for path, name, value in units),
        tuple(left_out),
        tuple(Problem(code, severity(code), *rest) for code, *rest in problems),
    )
