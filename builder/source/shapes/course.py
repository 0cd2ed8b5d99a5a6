"""The course itself, its objectives, terms and sources."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from builder.course import (
    About,
    Contact,
    ContactTime,
    Emergency,
    Implausible,
    Objective,
    Origin,
    Practice,
    Responsible,
    Source,
    Term,
    fixed,
)

from ..yaml_tree import Node
from .rules import when
from .shape import Shape, named, names, number, one, prose, text, whole

EMERGENCY = Shape(Emergency, {"number": ("number", text), "note": ("note", prose)})

CONTACT = Shape(Contact, {"label": ("label", text), "how": ("how", prose)}, given=("name",))

RESPONSIBLE = Shape(
    Responsible, {"name": ("name", text), "role": ("role", text), "contact": ("contact", prose)}
)

CONTACT_TIME = Shape(
    ContactTime,
    {
        "difficulty": ("difficulty", number),
        "words_per_minute": ("words_per_minute", number),
        "minutes_per_question": ("minutes_per_question", number),
        "minutes_per_exercise": ("minutes_per_exercise", number),
        "exercises": ("exercises", whole),
        "rounding": ("rounding", text),
    },
)

IMPLAUSIBLE = Shape(Implausible, {"never": ("never", when), "because": ("because", prose)}, given=("origin",))


def _implausible(value: list[Node], origin: Origin) -> tuple[Implausible, ...]:
    return tuple(IMPLAUSIBLE.build(one, origin.below(number)) for number, one in enumerate(value))


PRACTICE = Shape(
    Practice,
    {
        "each": ("each", whole),
        "names": ("names", names),
        "near": ("near", number),
        "seed": ("seed", whole),
        "plausible": ("plausible", _implausible),
    },
    given=("origin",),
)

ABOUT = Shape(
    About,
    {
        "course": ("name", text),
        "title": ("title", text),
        "language": ("language", text),
        "version": ("version", text),
        "summary": ("summary", prose),
        "scope": ("scope", prose),
        "provider": ("provider", text),
        "accreditation": ("accreditation", text),
        "pass_mark": ("pass_mark", number),
        "ages": ("ages", lambda value, origin: tuple(value)),
        "hours": ("hours", number),
        "contact_time": ("contact_time", one(CONTACT_TIME)),
        "emergency": ("emergency", one(EMERGENCY)),
        "responsible": ("responsible", one(RESPONSIBLE)),
        "after_harm": ("after_harm", prose),
        "contacts": ("contacts", named(CONTACT)),
        "reading_grade": ("reading_grade", number),
        "practice": ("practice", one(PRACTICE)),
        "pathway": ("pathway", names),
    },
    given=("origin",),
)

OBJECTIVE = Shape(Objective, {"label": ("label", text), "level": ("level", text)}, given=("name", "origin"))

TERM = Shape(
    Term,
    {"label": ("label", text), "text": ("text", prose), "synonyms": ("synonyms", names)},
    given=("name", "origin"),
)


def build_source(unit: Node, origin: Origin, name: str) -> Source:
    return Source(name, plain_json(unit), origin)


def plain_json(value: Node) -> Any:
    """A value with its decimals as floats, and nothing in it that could be changed."""
    if isinstance(value, dict):
        return fixed({key: plain_json(item) for key, item in value.items()})
    if isinstance(value, list):
        return tuple(plain_json(item) for item in value)
    return float(value) if isinstance(value, Decimal) else value
