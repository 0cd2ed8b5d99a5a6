"""The JSON Schemas of the course format."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import builder

Schema = dict[str, Any]


def schemas_dir() -> Path:
    """The folder of the schemas: inside the installed package, or beside it in a source tree."""
    package = Path(builder.__file__).resolve().parent
    inside = package / "schemas"
    return inside if inside.is_dir() else package.parent / "schemas"


@cache
def schema_files() -> dict[str, Schema]:
    """Every schema by file name."""
    return {path.name: json.loads(path.read_text("utf-8")) for path in sorted(schemas_dir().glob("*.json"))}


@cache
def written_out(part: str) -> Schema:
    """One part of the schemas, as `table.schema.json#/$defs/rule`, each `$ref` replaced by what it names.

    The schemas never refer to themselves, and following references is most of what validating costs. What
    stands beside a `$ref` (a title, a description, a narrower bound) wins over what it names.
    """
    file, _, pointer = part.partition("#")
    schema: Any = schema_files()[file]
    for key in pointer.strip("/").split("/") if pointer else ():
        schema = schema[key]
    whole: Schema = _written_out(schema, file)
    return whole


def _written_out(schema: Any, file: str) -> Any:
    if isinstance(schema, list):
        return [_written_out(item, file) for item in schema]
    if not isinstance(schema, dict):
        return schema
    own = {key: _written_out(value, file) for key, value in schema.items() if key not in ("$ref", "$defs")}
    if "$ref" not in schema:
        return own
    reference: str = schema["$ref"]
    named = written_out(file + reference if reference.startswith("#") else reference)
    both = {**named, **own}
    if "properties" in named and "properties" in own:
        both["properties"] = {**named["properties"], **own["properties"]}
    return both
