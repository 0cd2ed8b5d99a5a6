"""Tables and cautions."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from builder.course import (
    AnyOf,
    Band,
    Caution,
    Condition,
    Confusion,
    Is,
    Origin,
    Outcome,
    Review,
    Rule,
    Table,
    When,
    fixed,
)

from .shape import Shape, flag, many, named, names, names_by_name, prose, text


def condition(value: Any, origin: Origin) -> Condition:
    """A condition by its form: bounds make a band, true or false a finding, names a choice."""
    if isinstance(value, dict):
        return Band(fixed({bound: Fraction(number) for bound, number in value.items()}))
    if isinstance(value, bool):
        return Is(value)
    return AnyOf((value,) if isinstance(value, str) else tuple(value))


def when(value: dict[str, Any], origin: Origin) -> When:
    return fixed({name: condition(wanted, origin) for name, wanted in value.items()})


def _whens(value: list[dict[str, Any]], origin: Origin) -> tuple[When, ...]:
    return tuple(when(item, origin) for item in value)


REVIEW = Shape(
    Review,
    {
        "role": ("role", text),
        "by": ("by", text),
        "on": ("on", text),
        "due": ("due", text),
        "text": ("text", text),
        "clinician": ("by_clinician", flag),
    },
)


def review(value: Any, origin: Origin) -> Review | None:
    return None if isinstance(value, str) else REVIEW.build(value, origin)


OUTCOME = Shape(
    Outcome,
    {"label": ("label", text), "ends": ("ends", flag), "note": ("note", prose)},
    ("name", "origin"),
)

RULE = Shape(
    Rule,
    {
        "id": ("id", text),
        "when": ("when", when),
        "then": ("then", text),
        "because": ("because", prose),
        "source": ("source", text),
    },
    given=("origin",),
)

CONFUSION = Shape(
    Confusion,
    {
        "answered": ("answered", text),
        "right": ("right", text),
        "because": ("because", prose),
        "harm": ("harm", text),
    },
    given=("origin",),
)

TABLE = Shape(
    Table,
    {
        "table": ("name", text),
        "title": ("title", text),
        "question": ("question", prose),
        "policy": ("policy", text),
        "inputs": ("inputs", names),
        "outcomes": ("outcomes", named(OUTCOME)),
        "rules": ("rules", many(RULE)),
        "confusions": ("confusions", many(CONFUSION)),
        "source": ("source", text),
        "note": ("note", prose),
        "reviewed": ("reviewed", review),
    },
    given=("digest", "origin"),
)

CAUTION = Shape(
    Caution,
    {
        "caution": ("name", text),
        "title": ("title", text),
        "level": ("level", text),
        "when": ("when", _whens),
        "demands": ("demands", names_by_name),
        "applies_to": ("applies_to", names_by_name),
        "refer_to": ("refer_to", text),
        "text": ("text", prose),
        "source": ("source", text),
        "reviewed": ("reviewed", review),
    },
    given=("digest", "origin"),
)
