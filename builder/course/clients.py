"""Case vignettes: invented clients with readings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from .measures import Reading
from .origin import NOWHERE, Origin, nothing


@dataclass(frozen=True, slots=True)
class Client:
    name: str
    age: int | None = None
    about: str = ""


@dataclass(frozen=True, slots=True)
class Retest:
    after: str
    """How long after the first test, in words."""
    readings: Mapping[str, Reading]
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Case:
    name: str
    client: Client
    readings: Mapping[str, Reading]
    story: str = ""
    expect: Mapping[str, str] = field(default_factory=nothing)
    """Table to outcome: what the author meant. Checked, never used as the key."""
    near_cut: tuple[str, ...] = ()
    """Numbers that the author knows to sit near a line."""
    retest: Retest | None = None
    said: Mapping[str, str] = field(default_factory=nothing)
    """Choice or yes/no to the client's own words for it: pages show them in place of the reading."""
    told: tuple[str, ...] = ()
    """Measures whose reading the story tells."""
    objectives: tuple[str, ...] = ()
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)
