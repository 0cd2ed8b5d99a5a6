"""Invented clients."""

from __future__ import annotations

from builder.course import Case, Client, Retest

from .measures import readings
from .shape import Shape, name_map, names, one, prose, prose_map, text, whole

CLIENT = Shape(Client, {"name": ("name", text), "age": ("age", whole), "about": ("about", prose)})

RETEST = Shape(
    Retest, {"after": ("after", text), "readings": ("readings", readings), "note": ("note", prose)}
)

CASE = Shape(
    Case,
    {
        "case": ("name", text),
        "client": ("client", one(CLIENT)),
        "story": ("story", prose),
        "readings": ("readings", readings),
        "expect": ("expect", name_map),
        "said": ("said", prose_map),
        "told": ("told", names),
        "near_cut": ("near_cut", names),
        "retest": ("retest", one(RETEST)),
        "objectives": ("objectives", names),
    },
    given=("origin",),
)
