"""One file, taken apart into units: the things that load, or are left out, one by one."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from builder.course import Path
from builder.problems import Problem
from builder.problems.codes import severity

from .kinds import COURSE, KINDS, Kind
from .marks import Marks
from .misfits import Misfit, misfits, shell_misfits
from .texts import ReadFault
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


def content(kind: Kind, file: str, text: str, fault: ReadFault | None = None) -> Content:
    """What a file of this kind holds. Never raises; `fault` is one of reading it at all."""
    tree = parse(text) if fault is None else unread(fault)
    return _Reader(kind, file, tree, Marks(text, tree.spot)).content()


@dataclass(slots=True)
class _Reader:
    """Reads one file; everything found gathers here."""

    kind: Kind
    file: str
    tree: Tree
    marks: Marks
    units: list[Unit] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def content(self) -> Content:
        untold = list(self.tree.faults)
        for path, name, value in self._parts() if self.tree.is_whole else ():
            faults = [fault for fault in self.tree.faults if _touches(fault.path, path)]
            subject = f"{self.kind.name}:{name}" if _NAME.match(name) else f"file:{self.file}"
            for fault in [fault for fault in faults if fault in untold]:
                untold.remove(fault)
                self._tell("yaml", subject, fault.line, fault.column, fault.message, fault.hint)
            found = [
                misfit
                for misfit in self._misfits(path, value)
                if not any(_within(misfit.path, fault.path) for fault in faults)
            ]
            for misfit in found:
                self._misfit(misfit, subject)
            broken = [*(fault.path for fault in faults), *(misfit.path for misfit in found)]
            if not broken:
                self.units.append(Unit(path, name, value))
            elif self.kind is COURSE and isinstance(value, dict):
                keys = {place[0] for place in broken if place}
                self.units.append(Unit(path, name, {key: value[key] for key in value if key not in keys}))
            elif name:
                self.left_out.append(name)
        for fault in untold:
            self._tell("yaml", f"file:{self.file}", fault.line, fault.column, fault.message, fault.hint)
        self.problems.sort(key=lambda problem: problem.order)
        return Content(tuple(self.units), tuple(self.left_out), tuple(self.problems))

    def _misfits(self, path: Path, value: Node) -> list[Misfit]:
        """What is wrong with a unit, placed in its file."""
        other = _other_kind(self.kind, value)
        if other is not None:
            message = f"This is {other.words}, not {self.kind.words}."
            hint = f"Move it to {other.where}, or start with the line `{self.kind.name_key}:`."
            return [Misfit((*path, other.name), message, hint, at_key=True)]
        return [
            Misfit((*path, *misfit.path), misfit.message, misfit.hint, misfit.at_key)
            for misfit in misfits(value, self.kind.schema + self.kind.part(value))
        ]

    def _parts(self) -> Iterator[tuple[Path, str, Node]]:
        """The units with their paths and names; tells what is wrong around them."""
        value, key = self.tree.value, self.kind.key
        if value is None:
            if self.tree.faults:
                return
            hint = f"Delete it, or start with the line `{key or self.kind.name_key}:`."
            self._misfit(Misfit((), "The file holds nothing.", hint), f"file:{self.file}")
            return
        items: list[tuple[Path, str, Node]]
        if key is None:
            items = _list_items((), value) if isinstance(value, list) else [((), "", value)]
            if not items:
                self._misfit(Misfit((), "The list is empty."), f"file:{self.file}")
        else:
            bad: set[Path] = set()
            for misfit in shell_misfits(value, self.kind.schema):
                self._misfit(misfit, f"file:{self.file}")
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

    def _misfit(self, misfit: Misfit, subject: str) -> None:
        path = misfit.path
        while path not in self.marks:
            path = path[:-1]
        spot = self.marks.spot(path)
        line, column = (spot.key_line, spot.key_column) if misfit.at_key else (spot.line, spot.column)
        self._tell("schema", subject, line, column, misfit.message, misfit.hint)

    def _tell(self, code: str, subject: str, line: int, column: int, message: str, hint: str) -> None:
        self.problems.append(Problem(code, severity(code), subject, self.file, line, column, message, hint))


def _other_kind(kind: Kind, value: Node) -> Kind | None:
    """The kind that a unit names itself as, where it stands in the folder of another."""
    if not kind.is_folder or kind.key is not None or not isinstance(value, dict) or kind.name in value:
        return None
    return next((other for other in KINDS if other.is_folder and other.name in value), None)


def _list_items(path: Path, values: list[Node]) -> list[tuple[Path, str, Node]]:
    return [((*path, index), "", value) for index, value in enumerate(values)]


def _within(path: Path, around: Path) -> bool:
    return path[: len(around)] == around


def _touches(fault: Path, unit: Path) -> bool:
    return _within(fault, unit) or _within(unit, fault)
