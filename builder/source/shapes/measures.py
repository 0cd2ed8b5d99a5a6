"""Measures and readings."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, cast

from builder.course import (
    ChoiceScale,
    Drawn,
    Measure,
    NumberScale,
    Origin,
    Reading,
    Reference,
    YesNoScale,
    fixed,
)

from ..yaml_tree import Node
from .shape import Shape, many, number, prose, text


def reading(value: Any, origin: Origin) -> Reading:
    """A reading by its form: numbers are trials, anything else is a finding."""
    if isinstance(value, list):
        return Reading(trials=tuple(Fraction(trial) for trial in value))
    if isinstance(value, bool | str):
        return Reading(finding=value)
    return Reading(trials=(Fraction(value),))


def readings(value: dict[str, Any], origin: Origin) -> Mapping[str, Reading]:
    return fixed({name: reading(found, origin) for name, found in value.items()})


def _values(value: list[str] | dict[str, dict[str, str]], origin: Origin) -> Mapping[str, str]:
    if isinstance(value, list):
        return fixed({name: name.replace("_", " ") for name in value})
    return fixed({name: item["label"] for name, item in value.items()})


REFERENCE = Shape(
    Reference,
    {"who": ("who", text), "low": ("low", number), "high": ("high", number), "source": ("source", text)},
)

DRAWN = Shape(Drawn, {"figure": ("figure", text)}, given=("position", "joint", "origin"))

DRAWN_JOINT = Shape(
    Drawn,
    {"figure": ("figure", text), "position": ("position", text), "joint": ("joint", text)},
    given=("origin",),
)


def _drawn(value: dict[str, Node], origin: Origin) -> Drawn:
    return (DRAWN_JOINT if value["figure"] == "joint" else DRAWN).build(value, origin)


NUMBER_SCALE = Shape(
    NumberScale,
    {
        "unit": ("unit", text),
        "from": ("start", number),
        "to": ("stop", number),
        "step": ("step", number),
        "sem": ("sem", number),
        "sem_of": ("sem_of", text),
        "sem_source": ("sem_source", text),
        "better": ("better", text),
        "reference": ("reference", many(REFERENCE)),
        "drawn": ("drawn", _drawn),
        "read": ("read", text),
    },
)

CHOICE_SCALE = Shape(ChoiceScale, {"values": ("values", _values)})

YES_NO_SCALE = Shape(YesNoScale, {})

SCALES: dict[str, Shape[Any]] = {"number": NUMBER_SCALE, "choice": CHOICE_SCALE, "yes_no": YES_NO_SCALE}

MEASURE = Shape(
    Measure,
    {
        "label": ("label", text),
        "how": ("how", text),
        "takes": ("takes", number),
        "found_by": ("found_by", text),
        "taken_with": ("taken_with", text),
        "note": ("note", prose),
        "source": ("source", text),
    },
    given=("name", "scale", "of_client", "origin"),
)


def build_measure(unit: Node, origin: Origin, name: str) -> Measure:
    kind = cast(dict[str, str], unit)["kind"]
    return MEASURE.build(unit, origin, name=name, scale=SCALES[kind].build(unit, origin))
