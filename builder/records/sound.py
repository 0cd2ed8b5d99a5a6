"""Whether an entry of a file is an attempt, by `schemas/record.schema.json`; made for many of them.

Most values of a record come again and again, and validating is most of what reading costs. So the schema
judges each value of each part once, and once each set of parts that stand together.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache, lru_cache
from math import inf
from operator import itemgetter
from typing import Any

from jsonschema import Draft202012Validator

from builder.source.schemas import Schema, written_out
from builder.source.validators import Validator, expression, validator

from .record import Attempt

_SCHEMA = "record.schema.json#/$defs/attempt"
_MANY = 1 << 16


_OWN = ("ms", "sitting", "draw")
"""The parts that, like the moment, differ from attempt to attempt. All others stand together again and again:
whoever meets the same question gives one of few answers."""


def sound(attempt: object) -> Attempt | None:
    """The attempt that an entry tells of; None where the schema does not take it, or the calendar does
    not have its moment."""
    if not isinstance(attempt, dict):
        return None
    names = tuple(attempt)
    try:
        layout = _layout(names)
        values = layout.shared(attempt)
        like = _sound_together(names, values, tuple(map(type, values)))
    except TypeError:  # a list or an object among the values
        return _with_lists(attempt)
    at = attempt.get("at")
    if like is None or not (at.__class__ is str and _is_moment(at)):
        return None
    parts = list(like)
    parts[_AT] = at
    for name, place, fits in layout.own:
        value = parts[place] = attempt[name]
        if not fits(value):
            return None
    return Attempt._make(parts)


_AT = Attempt._fields.index("at")


def _with_lists(attempt: dict[str, Any]) -> Attempt | None:
    """Lists of texts alone can be sound, and no object is."""
    held = {name: tuple(value) if isinstance(value, list) else value for name, value in attempt.items()}
    lists = [value for value in held.values() if isinstance(value, tuple)]
    is_flat = all(isinstance(one, str) for value in lists for one in value)
    return sound(held) if is_flat and dict not in map(type, held.values()) else None


@dataclass(frozen=True, slots=True)
class _Layout:
    """How to read entries whose parts have such names."""

    shared: Callable[[dict[str, Any]], tuple[Any, ...]]
    """Takes the values of the shared parts."""
    own: tuple[tuple[str, int, Callable[[Any], bool]], ...]
    """Each own part with its place in an attempt and its check."""


@cache
def _layout(names: tuple[str, ...]) -> _Layout:
    shared = _shared_of(names)
    # Of one name alone `itemgetter` would give no tuple, and of none nothing.
    take = itemgetter(*shared, shared[0]) if shared else lambda _attempt: ()
    places = ((name, Attempt._fields.index(name), _checks()[name]) for name in _OWN if name in names)
    return _Layout(take, tuple(places))


def _shared_of(names: tuple[str, ...]) -> list[str]:
    return [name for name in names if name != "at" and name not in _OWN]


@lru_cache(_MANY)
def _sound_together(
    names: tuple[str, ...], values: tuple[Any, ...], kinds: tuple[type, ...]
) -> Attempt | None:
    """An attempt with the shared parts, where each is sound and all may stand together. `kinds` tells apart
    what Python takes for equal: 1 and true."""
    shared = _shared_of(names)
    parts = dict(zip(shared, values, strict=False))
    if not all(map(_fits, shared, kinds, values)):
        return None
    if not _fit_together(names, *[parts.get(name) for name in _judges()]):
        return None
    return Attempt(**{"at": "", **parts})


@lru_cache(_MANY)
def _fits(name: str, kind: type, value: Any) -> bool:
    if name not in written_out(_SCHEMA)["properties"]:
        return False
    return _part(name).is_valid(list(value) if kind is tuple else value)


@cache
def _checks() -> Mapping[str, Callable[[Any], bool]]:
    """A check for each of the parts that seldom come again: written out for a whole number with bounds and
    for a text with a pattern, which is what they are."""
    return {name: _check(_part(name), written_out(_SCHEMA)["properties"][name]) for name in _OWN}


def _check(part: Draft202012Validator, schema: Schema) -> Callable[[Any], bool]:
    if schema.keys() <= {*_SAID, "type", "minimum", "maximum"} and schema["type"] == "integer":
        low, high = schema.get("minimum", -inf), schema.get("maximum", inf)
        return lambda value: low <= value <= high if value.__class__ is int else part.is_valid(value)
    if schema.keys() <= {*_SAID, "type", "pattern"} and schema["type"] == "string":
        search = expression(schema["pattern"]).search
        return lambda value: value.__class__ is str and search(value) is not None
    return part.is_valid


_SAID = ("title", "description", "examples")


@cache
def _part(name: str) -> Draft202012Validator:
    return validator(f"{_SCHEMA}/properties/{name}")


@cache
def _judges() -> tuple[str, ...]:
    """The parts whose values decide which others must stand beside them."""
    rules = [rule["if"]["properties"] for rule in written_out(_SCHEMA)["allOf"]]
    return tuple(dict.fromkeys(name for rule in rules for name in rule))


@lru_cache(_MANY)
def _fit_together(names: tuple[str, ...], *judging: Any) -> bool:
    values = dict(zip(_judges(), judging, strict=True))
    return _around().is_valid({name: values.get(name) for name in names})


@cache
def _around() -> Draft202012Validator:
    """The schema but for what it says of single parts."""
    schema = written_out(_SCHEMA)
    return Validator({**schema, "properties": {name: {} for name in schema["properties"]}})


_MOMENT = re.compile(r"\d{4}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d:[0-5]\d\.\d{3}Z", re.ASCII)


def _is_moment(text: str) -> bool:
    """Whether the calendar has it, from 1970 on, as the browser counts."""
    return _MOMENT.fullmatch(text) is not None and _is_day(text[:10])


@lru_cache(_MANY)
def _is_day(text: str) -> bool:
    try:
        return date.fromisoformat(text).year >= 1970
    except ValueError:
        return False
