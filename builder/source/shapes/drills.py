"""Positions and drills."""

from __future__ import annotations

from builder.course import (
    Breath,
    Correction,
    Drill,
    DrillCaution,
    DrillFault,
    Look,
    Origin,
    Phase,
    Position,
    fixed,
)

from .rules import review
from .shape import Shape, flag, many, name_map, names, names_by_name, number, numbers, one, prose, text, whole

POSITION = Shape(
    Position,
    {
        "position": ("name", text),
        "title": ("title", text),
        "seen": ("seen", text),
        "trunk": ("trunk", number),
        "joints": ("joints", numbers),
        "shows": ("shows", names),
        "rests_on": ("rests_on", names_by_name),
        "under": ("under", name_map),
        "text": ("text", prose),
        "source": ("source", text),
    },
    given=("origin",),
)


def _look(value: dict[str, str | list[str]], origin: Origin) -> Look:
    return fixed({term: (one,) if isinstance(one, str) else tuple(one) for term, one in value.items()})


CORRECTION = Shape(Correction, {"say": ("say", prose), "reply": ("reply", prose)})

FAULT = Shape(
    DrillFault,
    {
        "id": ("id", text),
        "sign": ("sign", prose),
        "cause": ("cause", prose),
        "corrections": ("corrections", many(CORRECTION)),
        "stop": ("stop", flag),
        "stop_when": ("stop_when", prose),
        "caution": ("caution", text),
        "shows": ("shows", _look),
    },
    given=("origin",),
)

PHASE = Shape(
    Phase,
    {
        "id": ("id", text),
        "label": ("label", text),
        "cues": ("cues", names),
        "good": ("good", names),
        "looks": ("looks", _look),
        "faults": ("faults", many(FAULT)),
    },
    given=("origin",),
)

BREATH = Shape(
    Breath,
    {
        "out": ("out", number),
        "in": ("into", number),
        "pause": ("pause", number),
        "pause_for": ("pause_for", names_by_name),
        "breaths": ("breaths", whole),
    },
)

DRILL_CAUTION = Shape(DrillCaution, {"caution": ("caution", text), "change": ("change", prose)})

DRILL = Shape(
    Drill,
    {
        "drill": ("name", text),
        "title": ("title", text),
        "about": ("about", prose),
        "for": ("leads_here", names_by_name),
        "position": ("position", text),
        "breath": ("breath", one(BREATH)),
        "stop": ("stop", names),
        "phases": ("phases", many(PHASE)),
        "cautions": ("cautions", many(DRILL_CAUTION)),
        "objectives": ("objectives", names),
        "source": ("source", text),
        "reviewed": ("reviewed", review),
    },
    given=("digest", "origin"),
)
