"""One entry of a YAML file written anew, and nothing else of the file."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any

import yaml

from builder.course import Path

from .yaml_tree import read

_PLAIN = re.compile(r"\d{4}-\d\d-\d\d")


def with_entry(data: bytes, path: Path, key: str, entry: Mapping[str, str | bool]) -> bytes | None:
    """The bytes of a file in which the mapping at `path` holds `entry` under `key`, in place of what stood
    there; all others are as they were, comments too. None where that cannot be done safely.

    The new bytes are read again: they must hold what the old ones held and the entry, and nothing else.
    """
    old = read(data)
    if old.faults or not old.is_whole:
        return None
    text = data.decode("utf-8")
    try:
        part: yaml.Node | None = yaml.compose(text, yaml.SafeLoader)
    except yaml.YAMLError:
        return None
    for step in path:
        part = _below(part, step)
    if not isinstance(part, yaml.MappingNode):
        return None
    there = next((value for name, value in part.value if name.value == key), None)
    changed = _inserted(text, part, key, entry) if there is None else _replaced(text, there, entry)
    if changed is None:
        return None
    made = changed.encode("utf-8")
    new, expected = read(made), _expected(old.value, path, key, dict(entry))
    return made if not new.faults and new.is_whole and new.value == expected else None


def _below(node: yaml.Node | None, step: object) -> yaml.Node | None:
    if isinstance(node, yaml.SequenceNode) and isinstance(step, int):
        return node.value[step] if step < len(node.value) else None
    if isinstance(node, yaml.MappingNode):
        return next((value for key, value in node.value if key.value == step), None)
    return None


def _replaced(text: str, there: yaml.Node, entry: Mapping[str, str | bool]) -> str | None:
    """With the entry in the place of a value. None where a comment stands in it."""
    start, end = there.start_mark.index, there.end_mark.index
    written = _flow(entry)
    if isinstance(there, yaml.MappingNode) and not there.flow_style:
        end = there.value[-1][1].end_mark.index
        indent = _break(text, start) + " " * there.start_mark.column
        written = indent.join(_lines(entry))
    span = text[start:end]
    return None if "\n" in span and "#" in span else text[:start] + written + text[end:]


def _inserted(text: str, part: yaml.MappingNode, key: str, entry: Mapping[str, str | bool]) -> str | None:
    """With the entry after the first key whose value ends on its own line."""
    written = f"{key}: {_flow(entry)}"
    for name, value in part.value:
        end = value.end_mark.index
        if not isinstance(value, yaml.ScalarNode) or name.start_mark.line != value.end_mark.line:
            continue
        if part.flow_style:
            return f"{text[:end]}, {written}{text[end:]}"
        stop = text.find("\n", end) + 1 or len(text)
        rest = text[end:stop].strip()
        if not rest or rest.startswith("#"):
            start = "" if text[:stop].endswith("\n") else _break(text, 0)
            line = f"{start}{' ' * name.start_mark.column}{written}"
            return f"{text[:stop]}{line}{'' if start else _break(text, end)}{text[stop:]}"
    return None


def _break(text: str, start: int) -> str:
    """How the line at a place ends."""
    stop = text.find("\n", start)
    return "\r\n" if stop > 0 and text[stop - 1] == "\r" else "\n"


def _flow(entry: Mapping[str, str | bool]) -> str:
    return "{" + ", ".join(_lines(entry)) + "}"


def _lines(entry: Mapping[str, str | bool]) -> list[str]:
    """Days and truth values stand bare, all else in quotes."""
    return [f"{key}: {_said(value)}" for key, value in entry.items()]


def _said(value: str | bool) -> str:
    plain = isinstance(value, str) and _PLAIN.fullmatch(value)
    return str(value) if plain else json.dumps(value, ensure_ascii=False)


def _expected(value: Any, path: Path, key: str, entry: Mapping[str, str | bool]) -> Any:
    """The value of a file with the entry in it, at this one place."""
    step, rest = (path[0], path[1:]) if path else (key, ())
    changed: Any = list(value) if isinstance(value, list) else dict(value)
    changed[step] = _expected(value[step], rest, key, entry) if path else dict(entry)
    return changed
