"""The schemas: each key explained, each example true, and schema and model held to each other."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import pytest
from jsonschema import Draft202012Validator
from jsonschema.validators import validator_for

import builder.course
from builder.course import AT_REST, TERMS, Joint
from builder.source.kinds import KINDS
from builder.source.phrases import PHRASES
from builder.source.schemas import schema_files, schemas_dir, written_out
from builder.source.shapes import clients, course, drills, learning, measures, rules
from builder.source.shapes.shape import Shape
from builder.source.validators import validator

OWN = {name: schema for name, schema in schema_files().items() if name.endswith(".schema.json")}

PARTS: dict[str, tuple[Shape[Any], set[str]]] = {
    "course.schema.json": (course.ABOUT, set()),
    "course.schema.json#/$defs/emergency": (course.EMERGENCY, set()),
    "course.schema.json#/$defs/contact": (course.CONTACT, set()),
    "course.schema.json#/$defs/responsible": (course.RESPONSIBLE, set()),
    "course.schema.json#/$defs/contact_time": (course.CONTACT_TIME, set()),
    "course.schema.json#/$defs/practice": (course.PRACTICE, set()),
    "course.schema.json#/$defs/implausible": (course.IMPLAUSIBLE, set()),
    "measures.schema.json#/$defs/reference": (measures.REFERENCE, set()),
    "measures.schema.json#/$defs/drawn_joint": (measures.DRAWN_JOINT, set()),
    "measures.schema.json#/$defs/drawn_alone": (measures.DRAWN, set()),
    "objectives.schema.json#/$defs/objective": (course.OBJECTIVE, set()),
    "glossary.schema.json#/$defs/term": (course.TERM, set()),
    "table.schema.json#/$defs/table": (rules.TABLE, set()),
    "table.schema.json#/$defs/outcome": (rules.OUTCOME, set()),
    "table.schema.json#/$defs/rule": (rules.RULE, set()),
    "table.schema.json#/$defs/confusion": (rules.CONFUSION, set()),
    "caution.schema.json#/$defs/caution": (rules.CAUTION, set()),
    "caution.schema.json#/$defs/review": (rules.REVIEW, set()),
    "case.schema.json#/$defs/case": (clients.CASE, set()),
    "case.schema.json#/$defs/client": (clients.CLIENT, set()),
    "case.schema.json#/$defs/retest": (clients.RETEST, set()),
    "exercise.schema.json#/$defs/exercise": (learning.EXERCISE, set()),
    "exercise.schema.json#/$defs/decide": (learning.DECIDE, set()),
    "exercise.schema.json#/$defs/ask": (learning.ASK, set()),
    "exercise.schema.json#/$defs/choice": (learning.CHOICE, set()),
    "exercise.schema.json#/$defs/end": (learning.END, set()),
    "questions.schema.json#/$defs/option": (learning.OPTION, set()),
    "questions.schema.json#/$defs/pair": (learning.PAIR, set()),
    "questions.schema.json#/$defs/family": (learning.FAMILY, set()),
    "questions.schema.json#/$defs/client_family": (learning.CLIENT_FAMILY, set()),
    "questions.schema.json#/$defs/measure_family": (learning.MEASURE_FAMILY, set()),
    "questions.schema.json#/$defs/drawn_family": (learning.DRAWN_FAMILY, set()),
    "questions.schema.json#/$defs/drill_family": (learning.DRILL_FAMILY, set()),
    "position.schema.json#/$defs/position": (drills.POSITION, set()),
    "drill.schema.json#/$defs/drill": (drills.DRILL, set()),
    "drill.schema.json#/$defs/phase": (drills.PHASE, set()),
    "drill.schema.json#/$defs/fault": (drills.FAULT, set()),
    "drill.schema.json#/$defs/correction": (drills.CORRECTION, set()),
    "drill.schema.json#/$defs/breath": (drills.BREATH, set()),
    "drill.schema.json#/$defs/applies": (drills.DRILL_CAUTION, set()),
    "quiz.schema.json#/$defs/quiz": (learning.QUIZ, set()),
    "quiz.schema.json#/$defs/row": (learning.ROW, set()),
    "quiz.schema.json#/$defs/must": (learning.MUST, set()),
}
"""Part of the schemas, the shape that reads it, and keys that the model does not hold."""

UNIONS: dict[str, tuple[tuple[Shape[Any], ...], set[str]]] = {
    "measures.schema.json#/$defs/number": ((measures.MEASURE, measures.NUMBER_SCALE), {"kind"}),
    "measures.schema.json#/$defs/choice": ((measures.MEASURE, measures.CHOICE_SCALE), {"kind"}),
    "measures.schema.json#/$defs/yes_no": ((measures.MEASURE, measures.YES_NO_SCALE), {"kind"}),
}
QUESTION_KINDS = ("one", "several", "number", "order", "pairs")
ELSEWHERE = {
    "Band": "its bounds are the keys of a condition",
    "AnyOf": "a name or a list of names",
    "Is": "true or false",
    "Reading": "a number, a list, a name, or true or false",
    "Phrasing": "a text under its name",
    "Source": "a CSL-JSON item, kept as it is",
    "Lesson": "a Markdown file",
    "Edition": "a file that `casetrue edition` writes",
    "Course": "the folder",
    "Origin": "no content",
    "Place": "no content",
}
"""Dataclasses that no mapping of keys stands for, and why."""


def keys(part: str) -> set[str]:
    return set(written_out(part)["properties"])


@pytest.mark.parametrize("part", PARTS)
def test_a_shape_reads_just_the_keys_of_its_schema(part: str) -> None:
    shape, aside = PARTS[part]
    assert set(shape.keys) | aside == keys(part)


@pytest.mark.parametrize("part", UNIONS)
def test_the_shapes_of_a_measure_read_just_its_keys(part: str) -> None:
    shapes, aside = UNIONS[part]
    assert set().union(*(shape.keys for shape in shapes)) | aside == keys(part)


def test_a_question_reads_the_keys_of_all_its_kinds() -> None:
    every = set().union(*(keys(f"questions.schema.json#/$defs/{kind}") for kind in QUESTION_KINDS))
    assert set(learning.QUESTION.keys) == every


def test_a_look_has_the_terms_of_the_model() -> None:
    """By name, in order, each with its values, whether one is written or a list."""
    look = written_out("drill.schema.json#/$defs/look")["properties"]
    assert {term: tuple(part["items"]["enum"]) for term, part in look.items()} == TERMS
    assert {term: part["pattern"] for term, part in look.items()} == {
        term: f"^({'|'.join(values)})$" for term, values in TERMS.items()
    }
    assert list(look) == list(TERMS) == list(AT_REST)
    assert all(set(AT_REST[term]) <= set(values) for term, values in TERMS.items())


def test_a_joint_is_drawn_that_a_position_can_bend() -> None:
    drawn = written_out("measures.schema.json#/$defs/drawn_joint")["properties"]["joint"]["enum"]
    bent = written_out("position.schema.json#/$defs/position")["properties"]["joints"]["properties"]
    assert drawn == list(bent) == list(get_args(Joint))


def shapes() -> dict[str, Shape[Any]]:
    rooms = (course, measures, rules, clients, learning, drills)
    return {name: shape for room in rooms for name, shape in vars(room).items() if isinstance(shape, Shape)}


@pytest.mark.parametrize("name", shapes())
def test_a_shape_fills_every_field_of_its_dataclass(name: str) -> None:
    shape = shapes()[name]
    fields = {field.name for field in dataclasses.fields(shape.model)}  # type: ignore[arg-type]
    filled = [field for field, _ in shape.keys.values()]
    assert {*filled, *shape.given} == fields
    assert len(filled) == len(set(filled))


def test_every_dataclass_of_the_model_is_read_from_a_schema() -> None:
    model_classes = {
        name
        for name in builder.course.__all__
        if dataclasses.is_dataclass(found := getattr(builder.course, name)) and isinstance(found, type)
    }
    read = {shape.model.__name__ for shape in shapes().values()}
    assert read | set(ELSEWHERE) == model_classes
    assert not read & set(ELSEWHERE)


def test_every_shape_is_compared_with_a_schema() -> None:
    compared = [shape for shape, _ in PARTS.values()] + [learning.QUESTION]
    compared += [shape for group, _ in UNIONS.values() for shape in group]
    assert all(any(shape is other for other in compared) for shape in shapes().values())


def properties(schema: Any, where: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Every property that an educator can write; those of conditions (`if`) only choose."""
    if isinstance(schema, list):
        for item in schema:
            yield from properties(item, where)
    elif isinstance(schema, dict):
        for key, value in schema.get("properties", {}).items():
            yield f"{where}/{key}", value
            yield from properties(value, f"{where}/{key}")
        for keyword, value in schema.items():
            if keyword == "$defs":
                for name, part in value.items():
                    yield from properties(part, f"{where}/{name}")
            elif keyword not in ("properties", "if", "examples", "enum", "const"):
                yield from properties(value, where)


PROPERTIES = [(f"{name}{where}", part) for name, schema in OWN.items() for where, part in properties(schema)]


@pytest.mark.parametrize(("where", "part"), PROPERTIES, ids=[where for where, _ in PROPERTIES])
def test_every_property_is_explained_with_an_example(where: str, part: dict[str, Any]) -> None:
    assert part["title"]
    assert part["description"].endswith(".")
    assert part["examples"]


def _described(schema: Any, name: str) -> Iterator[tuple[Any, dict[str, Any]]]:
    if isinstance(schema, dict):
        for example in schema.get("examples", []):
            yield example, schema
        for value in schema.values():
            yield from _described(value, name)
    elif isinstance(schema, list):
        for item in schema:
            yield from _described(item, name)


@pytest.mark.parametrize("name", OWN)
def test_every_example_meets_its_schema(name: str) -> None:
    whole = written_out(name)
    parts = [whole, *(written_out(f"{name}#/$defs/{part}") for part in OWN[name].get("$defs", {}))]
    checked = 0
    for part in parts:
        for example, schema in _described(part, name):
            Draft202012Validator(schema).validate(example)
            checked += 1
    assert checked


@pytest.mark.parametrize("name", schema_files())
def test_every_schema_is_one(name: str) -> None:
    schema = schema_files()[name]
    validator_for(schema).check_schema(schema)


def _objects(schema: Any) -> Iterator[dict[str, Any]]:
    if isinstance(schema, dict):
        if "properties" in schema and "additionalProperties" not in schema:
            yield schema
        for keyword, value in schema.items():
            if keyword not in ("if", "examples"):
                yield from _objects(value)
    elif isinstance(schema, list):
        for item in schema:
            yield from _objects(item)


@pytest.mark.parametrize("name", OWN)
def test_no_key_is_let_through_unread(name: str) -> None:
    """Parts without `additionalProperties` are those that only choose between closed ones."""
    for part in _objects(OWN[name]):
        assert "allOf" in part or "else" in part or part["$ref"] == "csl-data.json#/items"


REQUIRED = {
    "course.schema.json": "course title",
    "measures.schema.json#/$defs/number": "label kind unit from to step sem",
    "measures.schema.json#/$defs/choice": "label kind values",
    "measures.schema.json#/$defs/yes_no": "label kind",
    "measures.schema.json#/$defs/drawn_joint": "figure position joint",
    "measures.schema.json#/$defs/drawn_alone": "figure",
    "objectives.schema.json#/$defs/objective": "label",
    "table.schema.json#/$defs/table": "table question policy inputs outcomes rules",
    "table.schema.json#/$defs/outcome": "label",
    "table.schema.json#/$defs/rule": "id when then",
    "caution.schema.json#/$defs/caution": "caution title level when text",
    "case.schema.json#/$defs/case": "case client readings",
    "case.schema.json#/$defs/client": "name",
    "exercise.schema.json#/$defs/exercise": "exercise title cases start steps",
    "questions.schema.json#/$defs/one": "id kind objective stem options",
    "questions.schema.json#/$defs/family": "id family table cases objective",
    "questions.schema.json#/$defs/client_family": "id family cases objective",
    "questions.schema.json#/$defs/measure_family": "id family measure cases objective",
    "questions.schema.json#/$defs/drawn_family": "id family measure cases objective",
    "questions.schema.json#/$defs/drill_family": "id family drill objective",
    "quiz.schema.json#/$defs/quiz": "quiz title",
}


@pytest.mark.parametrize("part", REQUIRED)
def test_the_required_keys_are_the_settled_ones(part: str) -> None:
    assert written_out(part)["required"] == REQUIRED[part].split()


CHOOSERS = {"if", "then", "else", "allOf", "const", "items", "properties", "additionalProperties"}
SILENT = {"title", "description", "examples", "$schema", "$defs", "$id", "definitions", "default"}


def _keywords(schema: Any) -> Iterator[str]:
    if isinstance(schema, dict):
        for keyword, value in schema.items():
            yield keyword
            inside = value.values() if keyword in ("properties", "$defs", "definitions") else [value]
            if keyword not in ("examples", "enum", "const", "required"):
                for part in inside:
                    yield from _keywords(part)
    elif isinstance(schema, list):
        for item in schema:
            yield from _keywords(item)


def test_every_keyword_that_can_refuse_has_its_words() -> None:
    told = {*PHRASES, "required", "anyOf", "propertyNames", "minLength"} | CHOOSERS | SILENT
    for kind in KINDS:
        assert set(_keywords(written_out(kind.schema))) <= told


def test_no_kind_is_chosen_by_trying_them_all() -> None:
    for name, schema in OWN.items():
        assert "oneOf" not in set(_keywords(schema)), name


@pytest.mark.parametrize("item", [{"id": "a", "type": "book"}, {"id": "a", "type": "bok"}, {"id": "a"}])
def test_references_meet_the_official_csl_schema(item: dict[str, str]) -> None:
    """`csl-data.json` is the Citation Style Language project's own schema, unchanged."""
    official = validator_for(schema_files()["csl-data.json"])(schema_files()["csl-data.json"])
    assert validator("sources.schema.json#/$defs/reference").is_valid(item) == official.is_valid([item])


def test_the_schemas_lie_where_editors_are_told() -> None:
    assert (schemas_dir() / "course.schema.json").is_file()
    assert schemas_dir() == Path(schemas_dir()).resolve()
