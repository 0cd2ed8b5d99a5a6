"""Strict YAML: plain values, and the place of every one of them.

The tree is composed from the events of PyYAML's C parser rather than by `yaml.compose`: composing stays a
loop, so that no nesting exhausts the stack; an alias is still seen as one, so that what it expands to can
be counted; and a fault need not end the reading, so that all of them are told in one run.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, NoReturn, TypeAlias

import yaml

from builder.course import Path

from .bounds import MAX_ALIASED, MAX_DEPTH, MAX_VALUES
from .scalars import is_boundless, plain_value
from .texts import CONTROL, ReadFault, control_fault, decode
from .wanted import shown
from .yaml_words import plain_words

Node: TypeAlias = "bool | int | Decimal | str | list[Node] | dict[str, Node] | None"
"""A value as read."""
Parts: TypeAlias = "dict[str, Spot] | list[Spot] | None"


class Spot:
    """Where a node stands (line and column from 1), where its key stands, and the spots of its parts."""

    __slots__ = ("column", "key_column", "key_line", "line", "parts")

    def __init__(self, line: int, column: int, key_line: int, key_column: int, parts: Parts) -> None:
        self.line, self.column = line, column
        self.key_line, self.key_column = key_line, key_column
        self.parts = parts


TOP = Spot(1, 1, 1, 1, None)


@dataclass(frozen=True, slots=True)
class Tree:
    """One file: its value, the spot of every node, and what is wrong with it."""

    value: Node
    spot: Spot
    faults: tuple[ReadFault, ...] = ()
    is_whole: bool = True
    """False where reading stopped at a fault, and there is no value at all."""


def read(data: bytes) -> Tree:
    """The tree of a file. Never raises: what is wrong is among the faults."""
    text, fault = decode(data)
    return parse(text) if fault is None else unread(fault)


def parse(text: str) -> Tree:
    """The tree of a text whose line ends are `\\n`. Never raises."""
    control = control_fault(text)
    if control is not None:
        return unread(control)
    hide, restore = _stand_ins(text)
    return _Composer(text, restore).tree(text.translate(hide) if hide else text)


def unread(*faults: ReadFault) -> Tree:
    """The tree of a file that could not be read."""
    return Tree(None, TOP, faults, is_whole=False)


def _stand_ins(text: str) -> tuple[dict[int, int], dict[int, int]]:
    """Characters that stand in for three line breaks, and the way back.

    NEL, LS and PS break lines in the YAML 1.1 that the parser speaks, but not in YAML 1.2 nor in any editor.
    """
    present = [ord(letter) for letter in "\x85\u2028\u2029" if letter in text]
    if not present:
        return {}, {}
    used = set(text)
    free = (point for point in range(0xE000, 0xF8FF) if chr(point) not in used)
    hide = dict(zip(present, free, strict=False))
    return hide, {stand_in: point for point, stand_in in hide.items()}


class _Stop(Exception):
    """Ends the reading of a file at a fault."""


class _Frame:
    """A list or mapping that is still open."""

    __slots__ = ("anchor", "column", "has_key", "height", "key", "key_column", "key_line", "line", "nodes",
                 "parts", "value")  # fmt: skip

    def __init__(self, line: int, column: int, anchor: str | None, is_mapping: bool) -> None:
        self.line, self.column, self.anchor = line, column, anchor
        self.value: Any = {} if is_mapping else []
        self.parts: Any = {} if is_mapping else []
        self.has_key = False
        self.key: str | None = None
        """None where what the key opens is dropped."""
        self.key_line = self.key_column = 0
        self.nodes, self.height = 1, 1


class _Composer:
    """Composes one document; `restore` brings hidden line breaks back."""

    def __init__(self, text: str, restore: dict[int, int]) -> None:
        self.text = text
        self.restore = restore
        self.faults: list[ReadFault] = []
        self.open: list[_Frame] = []
        self.anchors: dict[str, tuple[Node, Parts, int, int]] = {}
        """Value, spots, how many nodes, how deep."""
        self.values = 0
        self.aliased = 0
        self.root: Node = None
        self.spot = TOP
        self.documents = 0

    def tree(self, text: str) -> Tree:
        try:
            for event in _events(text):
                handle = _HANDLERS.get(type(event))
                if handle is not None:
                    mark: Any = event.start_mark
                    handle(self, event, mark.line + 1, mark.column + 1)
        except _Stop:
            return unread(*self.faults)
        except yaml.YAMLError as error:
            return unread(*self.faults, self._syntax(error))
        return Tree(self.root, self.spot, tuple(self.faults))

    def document(self, event: yaml.Event, line: int, column: int) -> None:
        self.documents += 1
        if self.documents > 1:
            self._stop(line, column, "A second document starts here; a file holds one.",
                       "Delete the line `---`, or move what follows into a file of its own.")  # fmt: skip

    def scalar(self, event: Any, line: int, column: int) -> None:
        text: str = event.value
        style: str | None = event.style
        value: Node = text
        if not style:
            value = plain_value(text)
            if value is text and is_boundless(text):
                self._fault(line, column, f"`{shown(text)}` is no number that can be reckoned with.",
                            "Write a plain decimal, or put the text in quotes.")  # fmt: skip
        elif style == '"' and CONTROL.search(text):
            value = ""
            self._fault(line, column, "This text writes a control character with a backslash.",
                        "Write the text without it, or in single quotes.")  # fmt: skip
        if event.tag is not None:
            self._tag(event.tag, line, column)
        if self.restore and isinstance(value, str):
            value = value.translate(self.restore)
        if event.anchor is not None:
            self.anchors[event.anchor] = (value, None, 1, 0)
        self._attach(value, None, line, column, 1, 0, inline=text != "" and style not in ("|", ">"))

    def start(self, event: Any, line: int, column: int) -> None:
        if len(self.open) >= MAX_DEPTH:
            self._stop(line, column, f"Lists and keys are nested more than {MAX_DEPTH} deep here.",
                       "Check the brackets and the spaces at the start of the lines.")  # fmt: skip
        if event.tag is not None:
            self._tag(event.tag, line, column)
        self.open.append(_Frame(line, column, event.anchor, type(event) is yaml.MappingStartEvent))

    def end(self, event: yaml.Event, line: int, column: int) -> None:
        frame = self.open.pop()
        if frame.anchor is not None:
            self.anchors[frame.anchor] = (frame.value, frame.parts, frame.nodes, frame.height)
        self._attach(frame.value, frame.parts, frame.line, frame.column, frame.nodes, frame.height)

    def alias(self, event: Any, line: int, column: int) -> None:
        anchor: str = event.anchor
        name = shown(anchor)
        value, parts, nodes, height = self.anchors.get(anchor, (None, None, 1, 0))
        if any(frame.anchor == anchor for frame in self.open):
            value, parts, nodes, height = None, None, 1, 0
            self._fault(line, column, f"`*{name}` stands inside what it repeats, which would never end.",
                        "Write out what is meant.")  # fmt: skip
        elif anchor not in self.anchors:
            self._fault(line, column, f"`*{name}` repeats what `&{name}` marks, and nothing above is marked.",
                        "Put the text in quotes if it should start with `*`.")  # fmt: skip
        self.aliased += nodes
        if self.aliased > MAX_ALIASED:
            self._stop(line, column, f"Aliases such as `*{name}` repeat more than {MAX_ALIASED:,} values.",
                       "Write out what is meant.")  # fmt: skip
        if len(self.open) + height > MAX_DEPTH:
            self._stop(line, column, f"What `*{name}` repeats nests lists more than {MAX_DEPTH} deep.",
                       "Write out what is meant.")  # fmt: skip
        self._attach(value, parts, line, column, nodes, height, inline=height == 0)

    def _attach(
        self,
        value: Node,
        parts: Parts,
        line: int,
        column: int,
        nodes: int,
        height: int,
        *,
        inline: bool = False,
    ) -> None:
        """Puts a finished node where it belongs: as a key, under a key, in a list, or as the document."""
        self.values += 1
        if self.values > MAX_VALUES:
            self._stop(line, column, f"The file holds more than {MAX_VALUES:,} keys and values.",
                       "Split it into smaller files.")  # fmt: skip
        if not self.open:
            self.root, self.spot = value, Spot(line, column, line, column, parts)
            return
        frame = self.open[-1]
        frame.nodes += nodes
        if height >= frame.height:
            frame.height = height + 1
        if frame.value.__class__ is list:
            frame.value.append(value)
            frame.parts.append(Spot(line, column, line, column, parts))
        elif not frame.has_key:
            frame.key = self._key(frame, value, line, column)
            frame.has_key, frame.key_line, frame.key_column = True, line, column
        else:
            frame.has_key = False
            if frame.key is not None:
                key_line, key_column = frame.key_line, frame.key_column
                if not inline or line != key_line:
                    line, column = key_line, key_column
                frame.value[frame.key] = value
                frame.parts[frame.key] = Spot(line, column, key_line, key_column, parts)

    def _key(self, frame: _Frame, value: Node, line: int, column: int) -> str | None:
        """The key, or None where what it opens is to be dropped."""
        if not isinstance(value, str):
            self._fault(line, column, *_not_a_key(value))
        elif value == "<<":
            self._fault(line, column, "`<<` merges keys, which is not read here.", "Write the keys out.")
        elif value in frame.value:
            first = f"the first is in line {frame.parts[value].key_line}"
            self._fault(line, column, f"`{shown(value)}` stands here a second time; {first}.",
                        "Keep one of the two.", below=(value,))  # fmt: skip
        else:
            return value
        return None

    def _tag(self, tag: str, line: int, column: int) -> None:
        name = shown(tag.replace("tag:yaml.org,2002:", "!!"))
        self._fault(line, column, f"`{name}` is a tag; tags are not read here.",
                    "Delete it; put the text in quotes if it should start with `!`.")  # fmt: skip

    def _fault(self, line: int, column: int, message: str, hint: str, below: Path = ()) -> None:
        path = [
            (frame.key or "") if frame.has_key else len(frame.value)
            for frame in self.open
            if frame.has_key or frame.value.__class__ is list
        ]
        self.faults.append(ReadFault((*path, *below), line, column, message, hint))

    def _stop(self, line: int, column: int, message: str, hint: str) -> NoReturn:
        self.faults.append(ReadFault((), line, column, message, hint))
        raise _Stop

    def _syntax(self, error: yaml.YAMLError) -> ReadFault:
        message, hint, opened = plain_words(error, self.text)
        places = ("context_mark", "problem_mark") if opened else ("problem_mark", "context_mark")
        mark = next((mark for place in places if (mark := getattr(error, place, None))), None)
        lines = self.text.removesuffix("\n").split("\n")
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        if line > len(lines):
            line, column = len(lines), len(lines[-1]) + 1
        return ReadFault((), line, min(column, len(lines[line - 1]) + 1), message, hint)


def _not_a_key(value: Node) -> tuple[str, str]:
    if isinstance(value, list | dict):
        return (
            "A list or a set of keys stands where a key should be.",
            "If the text starts with `{` or `[`, put it in quotes.",
        )
    if value is None:
        return (
            "A key is missing before this `:`.",
            'Write one, or `""` in quotes if the text starts with `:`.',
        )
    text = shown(value)
    if isinstance(value, bool):
        return f"A key must be a word, and `{text}` is read as yes or no.", f'Put it in quotes: "{text}".'
    return (
        f"A key must be a word, and `{text}` is read as a number.",
        f'Put it in quotes: "{text}". Between the digits of a number, write a point, not a comma.',
    )


_HANDLERS: dict[type, Callable[[_Composer, Any, int, int], None]] = {
    yaml.ScalarEvent: _Composer.scalar,
    yaml.AliasEvent: _Composer.alias,
    yaml.MappingStartEvent: _Composer.start,
    yaml.SequenceStartEvent: _Composer.start,
    yaml.MappingEndEvent: _Composer.end,
    yaml.SequenceEndEvent: _Composer.end,
    yaml.DocumentStartEvent: _Composer.document,
}


def _events(text: str) -> Iterator[yaml.Event]:
    """The parser's events: libyaml's where PyYAML was built with it, else the slower ones of pure Python."""
    loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)(text)
    try:
        while (event := loader.get_event()) is not None:
            yield event
    finally:
        loader.dispose()
