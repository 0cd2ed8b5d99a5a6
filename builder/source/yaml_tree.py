"""Strict YAML: plain values, and the place of every one of them.

The tree is composed here from the events of PyYAML's C parser rather than by `yaml.compose`, for three reasons:
composing stays a loop, so that no nesting exhausts the stack; an alias is still seen as one, so that what it
expands to can be counted; and a fault need not end the reading, so that all of them are told in one run.

What a value is: unquoted `true` and `false` are yes/no, unquoted plain decimals (`12`, `-0.5`) are numbers, an
unquoted `null`, `~` or nothing at all is empty, and everything else is text: dates, `yes`, `012`, `1e3`, `12:30`.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Union

import yaml

from builder.course import Path

from .yaml_words import plain_words

MAX_BYTES = 2_000_000
MAX_DEPTH = 30
MAX_ALIASED = 10_000
"""The bounds on one file: its bytes, how deep lists and keys may nest, and how many values aliases may repeat."""

Node = Union[None, bool, int, Decimal, str, list["Node"], dict[str, "Node"]]
"""A value as read. Numbers are `int` where written without a point, else `Decimal`, which keeps their digits."""


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a node stands (line and column from 1), where its key stands, and the spots of its parts."""

    line: int
    column: int
    key_line: int
    key_column: int
    parts: dict[str, Spot] | list[Spot] | None


@dataclass(frozen=True, slots=True)
class Fault:
    """Something that the file may not say; `path` is the smallest part that cannot be trusted."""

    path: Path
    line: int
    column: int
    message: str
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Tree:
    """One file: its value, the spot of every node, and what is wrong with it."""

    value: Node
    spot: Spot
    faults: tuple[Fault, ...] = ()


TOP = Spot(1, 1, 1, 1, None)


def decode(data: bytes) -> tuple[str, Fault | None]:
    """The text of a file, its byte-order mark dropped and its line ends made `\\n`. Never raises."""
    fault = None
    if len(data) > MAX_BYTES:
        fault = Fault(
            (), 1, 1, f"The file is larger than {MAX_BYTES // 1_000_000} MB.", "Split it into smaller files."
        )
        data = data[:0]
    elif data.startswith((b"\xff\xfe", b"\xfe\xff")):
        fault = Fault((), 1, 1, "The file is saved as UTF-16.", "Save it as UTF-8.")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8-sig", "replace").replace("\r\n", "\n").replace("\r", "\n")
        line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
        fault = fault or Fault(
            (), line, column, "Some letters on this line are not UTF-8.", "Save the file as UTF-8."
        )
        text = data.decode("utf-8-sig", "replace")
    if "\r" in text:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    return text, fault


def read(data: bytes) -> Tree:
    """The tree of a file. Never raises: what is wrong is among the faults."""
    text, fault = decode(data)
    return parse(text) if fault is None else Tree(None, TOP, (fault,))


_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufffe\uffff\ud800-\udfff]")
_BREAKS = "\x85\u2028\u2029"
"""Line breaks to the YAML 1.1 that the parser speaks, ordinary characters to YAML 1.2 and to every editor."""


def parse(text: str) -> Tree:
    """The tree of a text whose line ends are `\\n`. Never raises."""
    control = _CONTROL.search(text)
    if control:
        line, column = _position(text, control.start())
        message = "There is a control character here, which no text may hold."
        return Tree(None, TOP, (Fault((), line, column, message, "Delete it and type the words again."),))
    hide, restore = _hidden_breaks(text)
    return _Composer(text, restore).tree(text.translate(hide) if hide else text)


def _position(text: str, index: int) -> tuple[int, int]:
    return text.count("\n", 0, index) + 1, index - text.rfind("\n", 0, index)


def _hidden_breaks(text: str) -> tuple[dict[int, int], dict[int, int]]:
    """Stand-ins for `_BREAKS` that the text does not use, and the way back."""
    present = [ord(letter) for letter in _BREAKS if letter in text]
    if not present:
        return {}, {}
    used = set(text)
    free = (point for point in range(0xE000, 0xF8FF) if chr(point) not in used)
    hide = dict(zip(present, free, strict=False))
    return hide, {stand_in: point for point, stand_in in hide.items()}


_WORDS: dict[str, bool | None] = {
    "true": True, "false": False, "": None, "~": None, "null": None, "Null": None, "NULL": None,
}  # fmt: skip
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]{0,39})(?:\.[0-9]{1,40})?\Z")
_NUMBER_STARTS = frozenset("-+.0123456789")
_NOT_FINITE = re.compile(r"[-+]?\.(?:inf|Inf|INF)\Z|\.(?:nan|NaN|NAN)\Z")
_EXPONENT = re.compile(r"[-+]?(?:\.[0-9]{1,40}|[0-9]{1,40}(?:\.[0-9]{0,40})?)[eE][-+]?[0-9]{1,40}\Z")


def plain_value(text: str) -> bool | int | Decimal | str | None:
    """What an unquoted text stands for."""
    if text in _WORDS:
        return _WORDS[text]
    if text[0] in _NUMBER_STARTS and _NUMBER.match(text):
        return Decimal(text) if "." in text else int(text)
    return text


def _is_boundless(text: str) -> bool:
    """True for what other YAML readers take for infinity or for no number at all."""
    if text[0] not in _NUMBER_STARTS:
        return False
    return bool(_NOT_FINITE.match(text) or (_EXPONENT.match(text) and math.isinf(float(text))))


class _Stop(Exception):
    """Ends the reading of a file at a fault."""


class _Frame:
    """A list or mapping that is still open."""

    __slots__ = ("anchor", "column", "height", "items", "key", "key_spot", "keys", "line", "nodes", "spots")

    def __init__(self, line: int, column: int, anchor: str | None, is_mapping: bool) -> None:
        self.line, self.column, self.anchor = line, column, anchor
        self.keys: dict[str, Node] | None = {} if is_mapping else None
        self.items: list[Node] = []
        self.spots: dict[str, Spot] | list[Spot] = {} if is_mapping else []
        self.key: str | None = None
        self.key_spot: tuple[int, int] | None = None
        self.nodes, self.height = 1, 1


_Anchored = tuple[Node, "dict[str, Spot] | list[Spot] | None", int, int]


class _Composer:
    """Composes one document; `restore` brings back hidden line breaks."""

    def __init__(self, text: str, restore: dict[int, int]) -> None:
        self.text = text
        self.restore = restore
        self.faults: list[Fault] = []
        self.open: list[_Frame] = []
        self.anchors: dict[str, _Anchored] = {}
        self.aliased = 0
        self.root: Node = None
        self.root_spot = TOP
        self.documents = 0

    def tree(self, text: str) -> Tree:
        try:
            for event in _events(text):
                handle = _HANDLERS.get(type(event))
                if handle is not None:
                    handle(self, event)
        except _Stop:
            return Tree(None, TOP, tuple(self.faults))
        except yaml.YAMLError as error:
            self._syntax(error)
            return Tree(None, TOP, tuple(self.faults))
        return Tree(self.root, self.root_spot, tuple(self.faults))

    def _syntax(self, error: yaml.YAMLError) -> None:
        mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
        message, hint, opened = plain_words(error)
        if opened and getattr(error, "context_mark", None):
            mark = error.context_mark  # type: ignore[attr-defined]
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        lines = self.text.split("\n")
        if len(lines) > 1 and not lines[-1]:
            lines.pop()
        if line > len(lines):
            line, column = len(lines), len(lines[-1]) + 1
        column = min(column, len(lines[line - 1]) + 1)
        self.faults.append(Fault((), line, column, message, hint))

    def _path(self) -> Path:
        return tuple(
            (frame.key or "") if frame.keys is not None else len(frame.items)
            for frame in self.open
            if frame.keys is None or frame.key_spot is not None
        )

    def _fault(self, mark: yaml.Mark, message: str, hint: str = "", *, path: Path | None = None) -> None:
        where = self._path() if path is None else path
        self.faults.append(Fault(where, mark.line + 1, mark.column + 1, message, hint))

    def _stop(self, mark: yaml.Mark, message: str, hint: str = "") -> None:
        self._fault(mark, message, hint, path=())
        raise _Stop

    def document(self, event: yaml.DocumentStartEvent) -> None:
        self.documents += 1
        if self.documents > 1:
            self._stop(event.start_mark, "A second document starts here; a file holds one.",
                       "Delete the line `---`, or move what follows into a file of its own.")  # fmt: skip

    def scalar(self, event: yaml.ScalarEvent) -> None:
        value: Node = event.value
        text: str = event.value
        style: str = event.style
        if not style:
            value = plain_value(text)
            if value.__class__ is str and _is_boundless(text):
                self._fault(event.start_mark, f"`{text}` is no number that can be reckoned with.",
                            "Write a plain decimal, or put the text in quotes.")  # fmt: skip
        elif style == '"' and _CONTROL.search(text):
            self._fault(event.start_mark, "This text writes a control character with a backslash.",
                        "Write the text without it, or in single quotes.")  # fmt: skip
            value = ""
        if event.tag is not None:
            self._tag(event)
        if self.restore and value.__class__ is str:
            value = text.translate(self.restore)
        if event.anchor is not None:
            self.anchors[event.anchor] = (value, None, 1, 0)
        self._attach(value, None, event.start_mark, 1, 0, inline=text != "" and style not in ("|", ">"))

    def _tag(self, event: yaml.NodeEvent) -> None:
        shown = event.tag.replace("tag:yaml.org,2002:", "!!")  # type: ignore[attr-defined]
        self._fault(event.start_mark, f"`{shown}` is a tag; tags are not read here.",
                    "Delete it; put the text in quotes if it should start with `!`.")  # fmt: skip

    def start(self, event: yaml.CollectionStartEvent) -> None:
        mark = event.start_mark
        if len(self.open) >= MAX_DEPTH:
            self._stop(mark, f"Lists and keys are nested more than {MAX_DEPTH} deep here.",
                       "Check the brackets and the spaces at the start of the lines.")  # fmt: skip
        if event.tag is not None:
            self._tag(event)
        if event.anchor is not None:
            self.anchors.pop(event.anchor, None)
        self.open.append(_Frame(mark.line, mark.column, event.anchor, type(event) is yaml.MappingStartEvent))

    def end(self, event: yaml.CollectionEndEvent) -> None:
        frame = self.open.pop()
        value: Node = frame.items if frame.keys is None else frame.keys
        if frame.anchor is not None:
            self.anchors[frame.anchor] = (value, frame.spots, frame.nodes, frame.height)
        mark = yaml.Mark("", 0, frame.line, frame.column, None, None)
        self._attach(value, frame.spots, mark, frame.nodes, frame.height)

    def alias(self, event: yaml.AliasEvent) -> None:
        name, mark = event.anchor, event.start_mark
        if any(frame.anchor == name for frame in self.open):
            self._fault(mark, f"`*{name}` stands inside what it repeats, which would never end.",
                        "Write out what is meant.")  # fmt: skip
            return self._attach(None, None, mark, 1, 0)
        if name not in self.anchors:
            self._fault(mark, f"`*{name}` repeats a part marked `&{name}`, but no such part comes before it.",
                        "Put the text in quotes if it should start with `*`.")  # fmt: skip
            return self._attach(None, None, mark, 1, 0)
        value, spots, nodes, height = self.anchors[name]
        self.aliased += nodes
        if self.aliased > MAX_ALIASED:
            self._stop(mark, f"Aliases such as `*{name}` repeat more than {MAX_ALIASED:,} values.",
                       "Write out what is meant.")  # fmt: skip
        if len(self.open) + height > MAX_DEPTH:
            self._stop(
                mark, f"With `*{name}` written out, lists and keys are nested more than {MAX_DEPTH} deep."
            )
        self._attach(value, spots, mark, nodes, height, inline=height == 0)

    def _attach(
        self,
        value: Node,
        spots: dict[str, Spot] | list[Spot] | None,
        mark: yaml.Mark,
        nodes: int,
        height: int,
        *,
        inline: bool = False,
    ) -> None:
        """Puts a finished node where it belongs: a key, the value of one, a list item, or the whole document."""
        if not self.open:
            line, column = mark.line + 1, mark.column + 1
            self.root, self.root_spot = value, Spot(line, column, line, column, spots)
            return
        frame = self.open[-1]
        frame.nodes += nodes
        if height >= frame.height:
            frame.height = height + 1
        line, column = mark.line + 1, mark.column + 1
        if frame.keys is None:
            frame.items.append(value)
            frame.spots.append(Spot(line, column, line, column, spots))  # type: ignore[union-attr]
        elif frame.key_spot is None:
            frame.key_spot = (line, column)
            frame.key = self._key(frame.keys, frame.spots, value, mark)  # type: ignore[arg-type]
        else:
            key_line, key_column = frame.key_spot
            if frame.key is not None:
                if not inline or line != key_line:
                    line, column = key_line, key_column
                frame.keys[frame.key] = value
                frame.spots[frame.key] = Spot(line, column, key_line, key_column, spots)  # type: ignore[call-overload]
            frame.key = frame.key_spot = None

    def _key(self, keys: dict[str, Node], spots: dict[str, Spot], value: Node, mark: yaml.Mark) -> str | None:
        """The key, or None where what it opens is to be dropped."""
        path = self._path()[:-1]
        if not isinstance(value, str):
            if isinstance(value, list | dict):
                message = "A list or a set of keys stands where a key should be."
                hint = "If the text starts with `{` or `[`, put it in quotes."
            else:
                shown = (
                    "true" if value is True else "false" if value is False else "" if value is None else value
                )
                message = f"A key must be a word, and `{shown}` is read as {_KINDS[type(value)]}."
                hint = f'Write "{shown}" in quotes, or choose a name that starts with a letter.'
            self._fault(mark, message, hint, path=path)
            return None
        if value == "<<":
            self._fault(mark, "`<<` merges keys, which is not read here.", "Write the keys out.", path=path)
            return None
        if value in keys:
            first = spots[value].key_line
            self._fault(mark, f"`{value}` stands here a second time; the first is in line {first}.",
                        "Keep one of the two.", path=(*path, value))  # fmt: skip
            return None
        return value


_KINDS = {bool: "yes or no", int: "a number", Decimal: "a number", type(None): "empty"}

_HANDLERS: dict[type, Callable[..., None]] = {
    yaml.ScalarEvent: _Composer.scalar,
    yaml.AliasEvent: _Composer.alias,
    yaml.MappingStartEvent: _Composer.start,
    yaml.SequenceStartEvent: _Composer.start,
    yaml.MappingEndEvent: _Composer.end,
    yaml.SequenceEndEvent: _Composer.end,
    yaml.DocumentStartEvent: _Composer.document,
}


def _events(text: str) -> Iterator[yaml.Event]:
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)(text)
    try:
        while (event := loader.get_event()) is not None:
            yield event
    finally:
        loader.dispose()
