"""A course in which every field that takes free text holds a text of one's choice.

The fields come from the schemas, not from a list: the small course and the drills are read as YAML, every
optional text that an entry leaves out is put in, and each text is exchanged. A text that is new in a schema
is filled by itself; where it stands in a part that the seed lacks, `test_every_text_is_reached` names it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import yaml
from jsonschema import Draft202012Validator

from builder.source.kinds import KINDS, Kind
from builder.source.schemas import schema_files

COURSES = Path(__file__).parents[1] / "courses"
NAME = {"family": "Wagtail", "given": "Ada", "suffix": "Jr", "literal": "Nobody"}
DAY = {"date-parts": [[2020]], "season": 1, "literal": "spring", "raw": "2020"}
MORE: dict[str, Any] = {
    "glossary.yml": {"terms": {"heel": {"label": "Heel", "text": "The back of the foot."}}},
    "wording/ours.yml": {"wording": {"retest-yes": "It is larger", "retest-no": "It is not"}},
    "sources.yml": {
        "references": [
            {
                "id": "invented-handout",
                "type": "document",
                "title": "An invented handout",
                "author": [NAME | {"dropping-particle": "de", "non-dropping-particle": "la"}],
                "issued": DAY,
            },
            {"id": "second-handout", "type": "document", "editor": [{"literal": "Nobody"}], "issued": DAY},
            {"id": "third-handout", "type": "book", "issued": {"date-parts": [[2021]]}},
        ]
    },
    "cautions/reviewed.yml": {
        "caution": "reviewed",
        "title": "Reviewed",
        "level": "adapt",
        "when": [{"heel_pain": True}],
        "applies_to": {"plan": ["refer_out"]},
        "refer_to": "physiotherapist",
        "text": "Adapt.",
        "source": "second-handout",
        "reviewed": {"role": "physiotherapist", "on": "2026-06-01", "due": "2027-06-01"},
    },
}
"""What the small courses lack."""
HEARD = {
    "case": "heard",
    "client": {"name": "Heard", "age": 30},
    "readings": {"ankle_dorsiflexion": 44, "heel_pain": False, "stance": "hip"},
    "said": {"heel_pain": "Only when I stub it."},
}
CONFUSIONS = [{"answered": "free", "right": "stiff", "because": "The heel lifts late."}]
MADE_UP = {"id": "g-made-up", "family": "caution", "cases": "practice", "objective": "measure-ankle"}
DRAWN = {"figure": "dial"}
READ_OFF = {
    "id": "g-angle",
    "family": "read_off",
    "measure": "ankle_dorsiflexion",
    "cases": "all",
    "within": 5,
    "objective": "measure-ankle",
}
NOT_PROSE = {
    "csl-data.json#/items/id": "our own schema holds it to a name",
    "measures.schema.json#/$defs/choice/how": "the path of a lesson, which must be there",
    "measures.schema.json#/$defs/number/how": "the path of a lesson, which must be there",
    "measures.schema.json#/$defs/yes_no/how": "the path of a lesson, which must be there",
}
"""Fields that look like text, and why nothing else can stand in them."""

Choose = Callable[[str, int], str | None]
"""From a field, and how many texts went before in the course, to the new text; None keeps what is there."""
_LINES = re.compile("[\x85\u2028\u2029\ufeff]")


def fields() -> set[str]:
    """Every field of a course that takes free text, as `file#/$defs/part/key`."""
    found: set[str] = set()
    for name in sorted({kind.schema for kind in KINDS} | {"csl-data.json"}):
        found.update(_fields(schema_files()[name], name, "#"))
    return found - NOT_PROSE.keys()


def _fields(schema: Any, file: str, at: str) -> Iterator[str]:
    if isinstance(schema, list):
        for one in schema:
            yield from _fields(one, file, at)
    if not isinstance(schema, dict):
        return
    for key in ("$defs", "definitions", "properties"):
        for name, part in schema.get(key, {}).items():
            here = f"{at}/{name}" if key == "properties" else f"{at}/{key}/{name}"
            if key == "properties" and _holds_text(*_resolved(part, file)[:2]):
                yield f"{file}{here}"
            yield from _fields(part, file, here)
    for key in ("items", "anyOf", "then", "else"):
        if key in schema:
            yield from _fields(schema[key], file, f"{at}/items" if key == "items" else at)


def _resolved(schema: Any, file: str) -> tuple[dict[str, Any], str, str]:
    """What a schema says with its reference followed: the schema, its file, its place there or ""."""
    if not isinstance(schema, dict):
        return {}, file, ""
    if "$ref" not in schema:
        return schema, file, ""
    to, _, pointer = schema["$ref"].partition("#")
    to = to or file
    named: Any = schema_files()[to]
    for key in pointer.strip("/").split("/") if pointer else ():
        named = named[key]
    inner, inner_file, inner_at = _resolved(named, to)
    both = {**inner, **schema}
    if "properties" in inner and "properties" in schema:
        both["properties"] = {**inner["properties"], **schema["properties"]}
    return both, inner_file, inner_at or f"#{pointer}"


def _is_text(schema: dict[str, Any]) -> bool:
    kinds = schema.get("type", ())
    return ("string" in kinds if isinstance(kinds, list) else kinds == "string") and not (
        {"pattern", "enum", "const", "format"} & schema.keys()
    )


def _holds_text(schema: dict[str, Any], file: str) -> bool:
    """Is it a text, or a list or map of texts?"""
    inner = schema.get("items", schema.get("additionalProperties"))
    return _is_text(schema) or (isinstance(inner, dict) and _is_text(_resolved(inner, file)[0]))


class Seed:
    """The course's files, and how to write them with other texts."""

    def __init__(self) -> None:
        self.files: dict[str, Any] = {}
        self.others: dict[str, bytes] = {}
        for folder in ("ankle", "drills"):
            for path in sorted((COURSES / folder).rglob("*")):
                name = path.relative_to(COURSES / folder).as_posix()
                if path.suffix == ".yml":
                    self.files[name] = yaml.safe_load(path.read_text("utf-8"))
                elif path.is_file():
                    self.others[name] = path.read_bytes()
        self.files.update(MORE)
        self.files["tables/ankle_class.yml"]["confusions"] = CONFUSIONS
        never = {"never": {"ankle_dorsiflexion": {"below": 5}}, "because": "Nobody is as stiff."}
        self.files["course.yml"]["practice"] = {"each": 1, "names": ["Alder", "Birch"], "plausible": [never]}
        self.files["questions/made-up.yml"] = {"questions": [MADE_UP]}
        self.files["course.yml"]["responsible"] = {"name": "Ada Wagtail"}
        self.files["cases/heard.yml"] = HEARD
        ankle = self.files["measures.yml"]["measures"]["ankle_dorsiflexion"]
        ankle.update({"drawn": DRAWN, "read": "picture"})
        self.files["questions/seen.yml"] = {"questions": [READ_OFF]}
        self.reached: set[str] = set()

    def write(self, folder: Path, choose: Choose) -> Path:
        """Writes the course. `reached` then holds the fields that were seen."""
        self._choose, self._count = choose, 0
        for name, content in self.others.items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(content)
        for name, document in self.files.items():
            kind = next(kind for kind in KINDS if name == kind.where or name.startswith(kind.where))
            text = json.dumps(self._file(kind, document), ensure_ascii=False)
            text = _LINES.sub(lambda sign: f"\\u{ord(sign[0]):04x}", text)
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(text, "utf-8")
        return folder

    def _file(self, kind: Kind, document: Any) -> Any:
        if kind.key is None:
            return (
                [self._unit(kind, unit) for unit in document]
                if isinstance(document, list)
                else (self._unit(kind, document))
            )
        units = document[kind.key]
        changed: Any = (
            {name: self._unit(kind, unit) for name, unit in units.items()}
            if isinstance(units, dict)
            else [self._unit(kind, unit) for unit in units]
        )
        return {**document, kind.key: changed}

    def _unit(self, kind: Kind, unit: Any) -> Any:
        field = f"{kind.schema}#/{kind.key}" if isinstance(unit, str) else ""
        return self._value(unit, {"$ref": kind.schema + kind.part(unit)}, kind.schema, field)

    def _value(self, value: Any, schema: Any, file: str, field: str) -> Any:
        schema, file, place = _resolved(schema, file)
        at = file + place if place else field
        if isinstance(value, str):
            return self._text(value, field) if _is_text(schema) else value
        if isinstance(value, list):
            return [self._value(one, schema.get("items"), file, field) for one in value]
        if isinstance(value, dict):
            return self._mapping(value, schema, file, at)
        return value

    def _mapping(self, value: dict[str, Any], schema: dict[str, Any], file: str, at: str) -> dict[str, Any]:
        branch = schema
        while "if" in branch:
            holds = Draft202012Validator(branch["if"]).is_valid(value)
            branch = branch.get("then" if holds else "else", {})
        if "$ref" in branch:
            schema, file, at_branch = _resolved(branch, file)
            at = file + at_branch
        if "anyOf" in schema and "properties" in schema["anyOf"][0]:
            schema = schema["anyOf"][0]
        parts, rest = schema.get("properties", {}), schema.get("additionalProperties")
        changed = {}
        for key, one in value.items():
            if key in parts:
                changed[key] = self._value(one, parts[key], file, f"{at}/{key}")
            elif isinstance(rest, dict):
                changed[key] = self._value(one, rest, file, at)
            else:
                changed[key] = one
        for key in parts.keys() - value.keys():
            added = self._added(_resolved(parts[key], file)[0], f"{at}/{key}", file)
            if added is not None:
                changed[key] = added
        return changed

    def _added(self, schema: dict[str, Any], field: str, file: str) -> Any:
        """A text that the entry left out."""
        if field in NOT_PROSE:
            return None
        if _is_text(schema):
            return self._text("left out", field)
        if "items" in schema and _is_text(_resolved(schema["items"], file)[0]):
            return [self._text("left out", field)]
        return None

    def _text(self, value: str, field: str) -> str:
        if field in NOT_PROSE:
            return value
        self.reached.add(field)
        self._count += 1
        chosen = self._choose(field, self._count)
        return value if chosen is None else chosen
