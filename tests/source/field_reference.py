"""The field reference: every key of the format, written from the schemas."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from builder.questions.wording import TEXTS
from builder.source.bounds import MAX_ALIASED, MAX_BYTES, MAX_DEPTH, MAX_VALUES
from builder.source.kinds import KINDS, WORDING
from builder.source.schemas import Schema, schema_files, written_out

_HEAD = f"""# Every key of a course

Written from the schemas beside this file by `tests/refresh_fields.py`; change those, not this.

A key in bold must be there, all others may be left out. Names start with a letter and hold letters, digits,
`-` and `_`. Numbers are plain decimals (`12`, `-0.5`); only `true` and `false` mean yes and no; a date is
written `2026-06-01`. A file is UTF-8 and holds one document: at most {MAX_BYTES // 1_000_000} MB,
{MAX_VALUES:,} keys and values, {MAX_DEPTH} levels, and {MAX_ALIASED:,} values repeated by aliases.
Tags, merge keys and repeated keys are refused.

An editor that knows JSON Schema completes and checks a file while you write, if its first line names the
schema: `# yaml-language-server: $schema=` and the path to, for example, `case.schema.json`.
"""


def field_reference() -> str:
    """The whole reference as Markdown."""
    return (
        "\n".join([_HEAD, *(line for kind in KINDS for line in _file(kind.schema)), *_common()]).rstrip()
        + "\n"
    )


def _file(name: str) -> Iterator[str]:
    schema = schema_files()[name]
    yield f"## {schema['title']}"
    yield ""
    yield f"{schema['description']} Schema: `{name}`."
    yield ""
    yield from _rows(written_out(name))
    if name == WORDING.schema:
        yield from _texts()
    for part, inside in schema.get("$defs", {}).items():
        if inside.get("properties") and "allOf" not in inside:
            yield f"### {inside['title']}"
            yield ""
            yield inside["description"]
            yield ""
            yield from _rows(written_out(f"{name}#/$defs/{part}"))


def _texts() -> Iterator[str]:
    yield "The builder's own texts:"
    yield ""
    yield "| name | text |"
    yield "| --- | --- |"
    for name, text in TEXTS.items():
        yield f"| `{name}` | {' '.join(text.split())} |"
    yield ""


def _rows(part: Schema) -> Iterator[str]:
    if not part.get("properties"):
        return
    yield "| key | what | example |"
    yield "| --- | --- | --- |"
    required = part.get("required", [])
    for key, about in part["properties"].items():
        name = f"**`{key}`**" if key in required else f"`{key}`"
        if "examples" in about:
            yield f"| {name} | {_cell(about['description'])} | {_cell(_code(about['examples'][0]))} |"
    yield ""


def _common() -> Iterator[str]:
    yield "## Conditions"
    yield ""
    condition = written_out("common.schema.json#/$defs/condition")
    yield condition["description"]
    yield ""
    yield from _rows(condition)


def _code(example: Any) -> str:
    """An example as one line of YAML: JSON without the quotes that YAML does not need."""
    return f"`{_yaml(example)}`"


def _yaml(value: Any) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_yaml(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(_yaml(item) for item in value) + "]"
    if isinstance(value, str) and not any(sign in value for sign in ",:#[]{}"):
        return value
    return json.dumps(value, ensure_ascii=False)


def _cell(text: str) -> str:
    return text.replace("|", "\\|")
