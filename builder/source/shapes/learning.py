"""Exercises, questions and quizzes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import cast

from builder.course import (
    AskStep,
    BlueprintRow,
    Choice,
    DecideStep,
    EndStep,
    Exercise,
    Family,
    MustInclude,
    Option,
    Origin,
    Pair,
    Phrasing,
    Question,
    Quiz,
    Step,
    fixed,
)

from ..yaml_tree import Node
from .rules import review
from .shape import Shape, flag, many, name_map, names, number, prose, text, whole


def _cases(value: str | list[str], origin: Origin) -> str | tuple[str, ...]:
    return value if isinstance(value, str) else tuple(value)


def _steps(value: dict[str, dict[str, Node]], origin: Origin) -> Mapping[str, Step]:
    return fixed({name: _step(step, origin.below(name)) for name, step in value.items()})


def _step(value: dict[str, Node], origin: Origin) -> Step:
    if "decide" in value:
        return DECIDE.build(value, origin)
    return ASK.build(value, origin) if "ask" in value else END.build(value, origin)


DECIDE = Shape(DecideStep, {"decide": ("table", text), "go": ("go", name_map)}, given=("origin",))

CHOICE = Shape(
    Choice,
    {
        "say": ("say", prose),
        "best": ("best", flag),
        "harm": ("harm", text),
        "reply": ("reply", prose),
        "caution": ("caution", text),
        "means": ("means", name_map),
        "go": ("go", text),
    },
)

ASK = Shape(
    AskStep,
    {
        "ask": ("ask", prose),
        "objective": ("objective", text),
        "choices": ("choices", lambda value, origin: tuple(_choices(value, origin))),
    },
    given=("origin",),
)

END = Shape(EndStep, {"end": ("end", prose), "sends_on": ("sends_on", flag)}, given=("origin",))

EXERCISE = Shape(
    Exercise,
    {
        "exercise": ("name", text),
        "title": ("title", text),
        "about": ("about", prose),
        "cases": ("cases", _cases),
        "objectives": ("objectives", names),
        "readings": ("readings", text),
        "start": ("start", text),
        "steps": ("steps", _steps),
        "reviewed": ("reviewed", review),
    },
    given=("digest", "origin"),
)


def _choices(value: list[dict[str, Node]], origin: Origin) -> Iterable[Choice]:
    for index, choice in enumerate(value):
        yield CHOICE.build({"reply": "", **choice}, origin.below(index))


OPTION = Shape(
    Option,
    {
        "text": ("text", text),
        "key": ("key", flag),
        "why": ("why", prose),
        "harm": ("harm", text),
        "means": ("means", name_map),
    },
)

PAIR = Shape(Pair, {"left": ("left", text), "right": ("right", text)})

QUESTION = Shape(
    Question,
    {
        "id": ("id", text),
        "kind": ("kind", text),
        "objective": ("objective", text),
        "stem": ("stem", prose),
        "options": ("options", many(OPTION)),
        "answer": ("answer", number),
        "within": ("within", number),
        "unit": ("unit", text),
        "items": ("items", names),
        "pairs": ("pairs", many(PAIR)),
        "spare": ("spare", names),
        "why": ("why", prose),
        "source": ("source", text),
        "case": ("case", text),
        "reviewed": ("reviewed", review),
    },
    given=("digest", "origin"),
)

FAMILY = Shape(
    Family,
    {
        "id": ("id", text),
        "family": ("family", text),
        "table": ("table", text),
        "cases": ("cases", _cases),
        "objective": ("objective", text),
    },
    given=("drill", "measure", "within", "origin"),
)

CLIENT_FAMILY = Shape(
    Family,
    {
        "id": ("id", text),
        "family": ("family", text),
        "cases": ("cases", _cases),
        "objective": ("objective", text),
    },
    given=("table", "drill", "measure", "within", "origin"),
)

MEASURE_FAMILY = Shape(
    Family,
    {
        "id": ("id", text),
        "family": ("family", text),
        "measure": ("measure", text),
        "cases": ("cases", _cases),
        "objective": ("objective", text),
    },
    given=("table", "drill", "within", "origin"),
)

DRAWN_FAMILY = Shape(
    Family,
    {
        "id": ("id", text),
        "family": ("family", text),
        "measure": ("measure", text),
        "cases": ("cases", _cases),
        "within": ("within", number),
        "objective": ("objective", text),
    },
    given=("table", "drill", "origin"),
)

DRILL_FAMILY = Shape(
    Family,
    {
        "id": ("id", text),
        "family": ("family", text),
        "drill": ("drill", text),
        "objective": ("objective", text),
    },
    given=("table", "cases", "measure", "within", "origin"),
)

ROW = Shape(
    BlueprintRow,
    {
        "objective": ("objective", text),
        "level": ("level", text),
        "kind": ("kind", text),
        "family": ("family", text),
        "count": ("count", whole),
    },
    given=("origin",),
)

MUST = Shape(
    MustInclude,
    {"objective": ("objective", text), "clients": ("clients", text), "count": ("count", whole)},
    given=("origin",),
)


def _musts(value: list[dict[str, Node]], origin: Origin) -> tuple[MustInclude, ...]:
    return tuple(MUST.build(row, origin.below(number)) for number, row in enumerate(value))


def _groups(value: list[list[str]], origin: Origin) -> tuple[tuple[str, ...], ...]:
    return tuple(map(tuple, value))


QUIZ = Shape(
    Quiz,
    {
        "quiz": ("name", text),
        "title": ("title", text),
        "about": ("about", prose),
        "pass_mark": ("pass_mark", number),
        "marking": ("marking", text),
        "questions": ("questions", names),
        "serious": ("serious", text),
        "blueprint": ("blueprint", many(ROW)),
        "must_include": ("must_include", _musts),
        "never_with": ("never_with", _groups),
        "no_client_twice": ("no_client_twice", flag),
    },
    given=("origin",),
)


def build_question(unit: Node, origin: Origin, name: str) -> Question | Family:
    keys = cast(dict[str, Node], unit)
    if "family" not in keys:
        return QUESTION.build(unit, origin)
    if "drill" in keys:
        return DRILL_FAMILY.build(unit, origin, table="", cases=())
    if "measure" in keys:
        shape = DRAWN_FAMILY if keys["family"] == "read_off" else MEASURE_FAMILY
        return shape.build(unit, origin, table="")
    if "table" not in keys:
        return CLIENT_FAMILY.build(unit, origin, table="")
    return FAMILY.build(unit, origin)


def build_phrasing(unit: Node, origin: Origin, name: str) -> Phrasing:
    return Phrasing(name, prose(cast(str, unit), origin), origin)
