"""What is seen of a trunk: the terms of the trunk figure."""

from __future__ import annotations

from collections.abc import Mapping

from .origin import fixed

Look = Mapping[str, tuple[str, ...]]
"""Term to its values: several at once, or one after the other within a breath. Terms may be left out."""

TERMS: Look = fixed(
    {
        "pelvis": ("back", "level", "forward"),
        "ribs": ("down", "level", "flared"),
        "belly": ("sinks", "soft", "out", "hard"),
        "neck": ("quiet", "works"),
        "chest": ("widens", "still", "lifts"),
        "back": ("long", "hollow"),
        "legs": ("quiet", "shake"),
        "breath": ("slow", "fast", "stops"),
    }
)
"""Every term with all the values that it can have."""

AT_REST: Look = fixed(
    {
        "pelvis": ("level",),
        "ribs": ("level",),
        "belly": ("soft",),
        "neck": ("quiet",),
        "chest": ("widens",),
        "back": ("long",),
        "legs": ("quiet",),
        "breath": ("slow",),
    }
)
"""How a trunk looks of which nothing is said: it lies or stands still and breathes quietly. Assumed."""


def are_alike(one: Look, other: Look) -> bool:
    """Whether nobody can tell two looks apart: the same values, in whatever order they are listed."""
    return all(set(one.get(term, ())) == set(other.get(term, ())) for term in TERMS)
