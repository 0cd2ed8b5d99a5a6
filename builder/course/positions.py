"""Body positions as joint angles."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from .origin import NOWHERE, Origin, nothing

Joint = Literal["hip", "knee", "ankle", "neck", "shoulder", "elbow"]
Part = Literal["head", "trunk", "upper_arm", "forearm", "thigh", "shank", "foot"]
Support = Literal["floor", "wall", "bench"]


@dataclass(frozen=True, slots=True)
class Position:
    """One position in the plane in which its joints bend.

    Angles are degrees of flexion from upright standing, where every joint stands at 0: the neutral-zero
    method. Source: Cave and Roberts, J Bone Joint Surg Am 1936;18:455-465, and American Academy of
    Orthopaedic Surgeons, Joint Motion: Method of Measuring and Recording, 1965 (both from memory).
    """

    name: str
    title: str
    trunk: Fraction
    """Where the line from pelvis to neck points on the page, in degrees anticlockwise from the right."""
    joints: Mapping[Joint, Fraction]
    text: str
    """The figure in words."""
    seen: Literal["side", "above"] = "side"
    shows: tuple[Joint, ...] = ("hip", "knee")
    """Joints whose angle is drawn, in order."""
    rests_on: Mapping[Support, tuple[Part, ...]] = field(default_factory=nothing)
    under: Mapping[Part, str] = field(default_factory=nothing)
    """What is put under a part of the body, in words."""
    source: str | None = None
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)
