"""Validators for the parts of the schemas."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

from jsonschema import Draft202012Validator, ValidationError
from jsonschema.validators import extend

from .schemas import Schema, written_out


def repeats(items: list[Any]) -> Iterator[int]:
    """The places of entries that stand in the list already."""
    seen: set[str] = set()
    for index, item in enumerate(items):
        text = repr(item)
        if text in seen:
            yield index
        seen.add(text)


def _unique(validator: Any, wanted: bool, items: Any, schema: Any) -> Iterator[ValidationError]:
    """`uniqueItems` in time that grows with the list, not with its square."""
    if isinstance(items, list) and any(True for _ in repeats(items)):
        yield ValidationError("entries repeat")


def _pattern(validator: Any, wanted: str, text: Any, schema: Any) -> Iterator[ValidationError]:
    if isinstance(text, str) and not expression(wanted).search(text):
        yield ValidationError("the pattern does not match")


@cache
def expression(pattern: str) -> re.Pattern[str]:
    """A pattern as JSON Schema means it, after ECMA-262: `$` is the very end of the text. Python's `$` also
    stands before a line feed that ends it, so that a name with one would pass."""
    return re.compile(_PARTS.sub(lambda part: r"\Z" if part[0] == "$" else part[0], pattern))


_PARTS = re.compile(r"\\.|\[(?:\\.|[^\]\\])*\]|\$")
"""What is escaped, a class of letters, or the sign for the end."""

Validator: type[Draft202012Validator] = extend(  # type: ignore[no-untyped-call]
    Draft202012Validator, {"uniqueItems": _unique, "pattern": _pattern}
)


def _descend(
    self: Draft202012Validator,
    instance: Any,
    schema: Schema | bool,
    path: str | int | None = None,
    schema_path: str | int | None = None,
    resolver: object = None,
) -> Iterator[ValidationError]:
    """As jsonschema's own, which makes a validator for every value; here each part of a schema has one. The
    schemas are written out, so that none refers to another."""
    key = id(schema)
    if key not in _INSIDE:
        _INSIDE[key] = Validator(schema)
    for error in _INSIDE[key].iter_errors(instance):
        if path is not None:
            error.path.appendleft(path)
        if schema_path is not None:
            error.schema_path.appendleft(schema_path)
        yield error


_INSIDE: dict[int, Draft202012Validator] = {}
"""By the identity of a schema, which its validator keeps."""
Validator.descend = _descend  # type: ignore[assignment, method-assign]


@cache
def validator(part: str) -> Draft202012Validator:
    """The validator of one part."""
    return Validator(written_out(part))


@cache
def shell_validator(file: str) -> Draft202012Validator:
    """The validator of a file around its units: whatever stands in a unit passes."""
    schema = written_out(file)
    ((key, holder),) = schema["properties"].items()
    inside: Schema = {"items": {}} if holder["type"] == "array" else {"additionalProperties": {}}
    return Validator({**schema, "properties": {key: {**holder, **inside}}})
