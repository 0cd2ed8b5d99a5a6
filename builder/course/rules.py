"""Decision tables and cautions: how clients are decided about, and what must hold whatever is decided."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from .origin import NOWHERE, Origin, nothing

Bound = Literal["at_least", "above", "at_most", "below"]


@dataclass(frozen=True, slots=True)
class Band:
    """A condition on a number: every bound that is given must hold."""

    bounds: Mapping[Bound, Fraction]


@dataclass(frozen=True, slots=True)
class AnyOf:
    """A condition on a choice or on another table: one of these names."""

    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Is:
    """A condition on a yes/no finding."""

    answer: bool


Condition = Band | AnyOf | Is
When = Mapping[str, Condition]
"""Conditions by input name; all must hold; an input that is not named matches anything."""


@dataclass(frozen=True, slots=True)
class Outcome:
    name: str
    label: str
    ends: bool = False
    """The client is sent on here: readings that only later tables need may be left out."""
    note: str | None = None
    """A line of prose: what this outcome means for the coach."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Rule:
    id: str
    when: When
    then: str
    because: str | None = None
    source: str | None = None
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


Harm = Literal["none", "minor", "serious"]
HARMS: tuple[Harm, ...] = ("none", "minor", "serious")
"""From the least to the worst."""


@dataclass(frozen=True, slots=True)
class Confusion:
    """One outcome that people take for another."""

    answered: str
    right: str
    because: str = ""
    harm: Harm = "none"
    """Can raise the harm that is worked out, never lower it."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Review:
    """A review by somebody in `role`; dates as YYYY-MM-DD."""

    role: str
    on: str
    due: str | None = None
    by: str = ""
    """Who it was."""
    text: str | None = None
    """The digest of what was reviewed; None where nobody noted it."""
    by_clinician: bool = True
    """False where the reviewer holds no clinical licence: then no clinician has reviewed it yet."""


@dataclass(frozen=True, slots=True)
class Table:
    name: str
    question: str
    policy: Literal["unique", "first"]
    """OMG DMN hit policies: `unique`, at most one rule may match; `first`, the topmost match wins."""
    inputs: tuple[str, ...]
    """Names of measures and of other tables."""
    outcomes: Mapping[str, Outcome]
    rules: tuple[Rule, ...]
    title: str = ""
    confusions: tuple[Confusion, ...] = ()
    """What people take for what."""
    source: str | None = None
    note: str | None = None
    reviewed: Review | None = None
    digest: str = field(default="", repr=False, compare=False)
    """Of all that is written of it but its review."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


Level = Literal["urgent", "refer", "adapt", "watch"]
"""The gravest first."""
SENDS_ON: tuple[Level, ...] = ("urgent", "refer")
"""Levels at which the coach stops and sends the client on."""


@dataclass(frozen=True, slots=True)
class Caution:
    name: str
    title: str
    level: Level
    when: tuple[When, ...]
    """The client meets the caution when any one of these sets holds; measures only."""
    text: str
    demands: Mapping[str, tuple[str, ...]] = field(default_factory=nothing)
    """Table to the outcomes that it may end in for someone who meets this caution."""
    applies_to: Mapping[str, tuple[str, ...]] = field(default_factory=nothing)
    """Table to the outcomes that carry this caution for everyone."""
    refer_to: str | None = None
    source: str | None = None
    reviewed: Review | None = None
    """None is `not_yet`, the honest default."""
    digest: str = field(default="", repr=False, compare=False)
    """Of all that is written of it but its review."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)
