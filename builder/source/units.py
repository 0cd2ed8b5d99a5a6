"""One file, taken apart into units: the things that load, or are left out, one by one."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from builder.course import Path
from builder.problems import Problem
from builder.problems.codes import severity

from .kinds import COURSE, Kind
from .marks import Marks
from .misfits import Misfit, misfits, shell_misfits
from .texts import Fault
from .yaml_tree import Node, Tree, parse, unread

_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_-]*\Z")


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


def content(kind: Kind, file: str, text: str, fault: Fault | None = None) -> Content:
    """What a file of this kind holds. Never raises; `fault` is one of reading it at all."""
    tree = parse(text) if fault is None else unread(fault)
    return _Reader(kind, file, text, tree).content()


@dataclass(slots=True)
class _Reader:
    kind: Kind
    file: str
    text: str
    tree: Tree
    problems: list[Problem] = field(default_factory=list)

    def content(self) -> Content:
        marks = Marks(self.text, self.tree.spot)
        units: list[Unit] = []
        left_out: list[str] = []
        told: set[int] = set()
        for path, name, value in self._parts(marks) if self.tree.is_whole else ():
            faults = [fault for fault in self.tree.faults if _touches(fault.path, path)]
            found = [
                Misfit((*path, *misfit.path), misfit.message, misfit.hint, misfit.at_key)
                for misfit in misfits(value, self.kind.schema + self.kind.part(value))
            ]
            found = [one for one in found if not any(_within(one.path, fault.path) for fault in faults)]
            subject = f"{self.kind.name}:{name}" if _NAME.match(name) else f"file:{self.file}"
            for fault in faults:
                if id(fault) not in told:
                    told.add(id(fault))
                    self._yaml(fault, subject)
            for misfit in found:
                self._schema(misfit, subject, marks)
            if not faults and not found:
                units.append(Unit(path, name, value))
            elif self.kind is COURSE and isinstance(value, dict):
                broken = {
                    path[0] for path in (*(one.path for one in faults), *(one.path for one in found)) if path
                }
                sound = {key: part for key, part in value.items() if key not in broken}
                units.append(Unit(path, name, sound))
            elif name:
                left_out.append(name)
        for fault in self.tree.faults:
            if id(fault) not in told:
                self._yaml(fault, f"file:{self.file}")
        return Content(tuple(units), tuple(left_out), tuple(sorted(self.problems, key=lambda one: one.order)))

    def _parts(self, marks: Marks) -> Iterator[tuple[Path, str, Node]]:
        """The units with their paths and names; tells what is wrong around them."""
        value, key = self.tree.value, self.kind.key
        if value is None:
            if self.tree.faults:
                return
            hint = f"Delete it, or start with the line `{key or self.kind.name_key}:`."
            self._schema(Misfit((), "The file holds nothing.", hint), f"file:{self.file}", marks)
            return
        items: list[tuple[Path, str, Node]]
        if key is None:
            items = _list_items((), value) if isinstance(value, list) else [((), "", value)]
            if not items:
                self._schema(Misfit((), "The list is empty."), f"file:{self.file}", marks)
        else:
            bad: set[Path] = set()
            for misfit in shell_misfits(value, self.kind.schema):
                self._schema(misfit, f"file:{self.file}", marks)
                bad.add(misfit.path)
            inside = value.get(key) if isinstance(value, dict) else None
            if isinstance(inside, list) and self.kind.name_key is not None:
                items = _list_items((key,), inside)
            elif isinstance(inside, dict) and self.kind.name_key is None:
                items = [((key, name), name, item) for name, item in inside.items() if (key, name) not in bad]
            else:
                items = []
        for path, name, item in items:
            if self.kind.name_key is not None and isinstance(item, dict):
                said = item.get(self.kind.name_key)
                name = said if isinstance(said, str) else ""
            yield path, name, item

    def _yaml(self, fault: Fault, subject: str) -> None:
        self.problems.append(
            Problem(
                "yaml",
                severity("yaml"),
                subject,
                self.file,
                fault.line,
                fault.column,
                fault.message,
                fault.hint,
            )
        )

    def _schema(self, misfit: Misfit, subject: str, marks: Marks) -> None:
        path = misfit.path
        while path not in marks:
            path = path[:-1]
        spot = marks.spot(path)
        line, column = (spot.key_line, spot.key_column) if misfit.at_key else (spot.line, spot.column)
        self.problems.append(
            Problem(
                "schema", severity("schema"), subject, self.file, line, column, misfit.message, misfit.hint
            )
        )


def _list_items(path: Path, values: list[Node]) -> list[tuple[Path, str, Node]]:
    return [((*path, index), "", value) for index, value in enumerate(values)]


def _within(path: Path, around: Path) -> bool:
    return path[: len(around)] == around


def _touches(fault: Path, unit: Path) -> bool:
    return _within(fault, unit) or _within(unit, fault)
