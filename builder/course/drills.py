"""Drills: what is coached, phase by phase, and what can go wrong."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from .looks import AT_REST, Look
from .origin import NOWHERE, Origin, fixed, nothing
from .rules import Review

MOST_BREATHS = 5
"""Breaths in a row before a rest."""
MOST_PAUSE = 5
"""Seconds."""


@dataclass(frozen=True, slots=True)
class Correction:
    say: str
    reply: str = ""
    """What happens then."""


@dataclass(frozen=True, slots=True)
class DrillFault:
    id: str
    sign: str
    """What is seen or heard."""
    cause: str
    corrections: tuple[Correction, ...]
    """In the order in which they are tried; at least one."""
    stop: bool = False
    """The first act is to stop; the first correction says how."""
    stop_when: str = ""
    caution: str | None = None
    shows: Look = field(default_factory=nothing)
    """What is seen of it; what it does not say is as its phase looks when it is good. Empty: words alone."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Phase:
    id: str
    label: str
    cues: tuple[str, ...]
    good: tuple[str, ...] = ()
    faults: tuple[DrillFault, ...] = ()
    looks: Look = field(default_factory=nothing)
    """What is seen when it is good."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


def seen(phase: Phase, fault: DrillFault | None = None) -> Look:
    """All that is seen of a phase, when it is good or with one of its faults: a value for every term. What
    neither says is as at rest."""
    return fixed({**AT_REST, **phase.looks, **(fault.shows if fault else {})})


@dataclass(frozen=True, slots=True)
class Breath:
    """Lengths in seconds. The first breath never has a pause; after `breaths` comes a rest."""

    out: Fraction
    into: Fraction
    """The breath in."""
    pause: Fraction = Fraction(0)
    """The longest pause after the breath out; at most `MOST_PAUSE`."""
    pause_for: Mapping[str, tuple[str, ...]] = field(default_factory=nothing)
    """Table to the outcomes with which a pause is allowed; empty: with any."""
    breaths: int = MOST_BREATHS


@dataclass(frozen=True, slots=True)
class DrillCaution:
    caution: str
    change: str = ""
    """What changes in the drill for whoever meets the caution."""


@dataclass(frozen=True, slots=True)
class Drill:
    name: str
    title: str
    stop: tuple[str, ...]
    """What ends the drill at once."""
    phases: tuple[Phase, ...]
    about: str = ""
    leads_here: Mapping[str, tuple[str, ...]] = field(default_factory=nothing)
    """Table to the outcomes that lead to this drill."""
    position: str | None = None
    breath: Breath | None = None
    cautions: tuple[DrillCaution, ...] = ()
    objectives: tuple[str, ...] = ()
    source: str | None = None
    reviewed: Review | None = None
    """None is `not_yet`, the honest default."""
    digest: str = field(default="", repr=False, compare=False)
    """Of all that is written of it but its review."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)
