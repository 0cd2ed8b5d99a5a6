"""The JSON Schemas of the course format, and validators for their parts."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator
from referencing import Registry, Resource
from referencing.jsonschema import DRAFT202012

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
def _registry() -> Registry[Schema]:
    resources = {
        name: Resource.from_contents(schema, default_specification=DRAFT202012)
        for name, schema in schema_files().items()
    }
    return Registry().with_resources(resources.items())


@cache
def validator(part: str) -> Draft202012Validator:
    """The validator of one part, such as `table.schema.json#/$defs/rule`."""
    return Draft202012Validator({"$ref": part}, registry=_registry())


@cache
def shell_validator(file: str) -> Draft202012Validator:
    """The validator of a file around its units: whatever stands in a unit passes."""
    schema = schema_files()[file]
    ((key, holder),) = schema["properties"].items()
    inside = {"items": {}} if holder["type"] == "array" else {"additionalProperties": {}}
    return Draft202012Validator({**schema, "properties": {key: {**holder, **inside}}}, registry=_registry())
