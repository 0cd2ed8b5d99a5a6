"""What can be measured or asked of a client, and what was found."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, get_args

from .origin import NOWHERE, Origin
from .positions import Joint


@dataclass(frozen=True, slots=True)
class Reference:
    """A published band that a reading is drawn against; it decides nothing."""

    who: str
    low: Fraction
    high: Fraction
    source: str


@dataclass(frozen=True, slots=True)
class Drawn:
    """How a reading is drawn: a joint of a position at that angle, the lower ribs from the front with the
    angle between them, or a hand on a dial."""

    figure: Literal["joint", "ribs", "dial"]
    position: str | None = None
    """joint: the position that is drawn."""
    joint: Joint | None = None
    """joint: the one that stands at the reading."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class NumberScale:
    """A number recorded on the grid `start, start + step, ..., stop`, all in `unit`."""

    unit: str
    start: Fraction
    stop: Fraction
    step: Fraction
    sem: Fraction
    """Standard error of measurement of one reading, in `unit`; 0 means certain."""
    sem_of: Literal["trial", "session"] = "trial"
    """`trial`: averaging n trials divides the error by sqrt(n); `session`: it does not."""
    sem_source: str | None = None
    better: Literal["higher", "lower"] | None = None
    reference: tuple[Reference, ...] = ()
    drawn: Drawn | None = None
    read: Literal["picture"] | None = None
    """`picture`: the drawing stands first, and the number follows after one's own estimate."""


@dataclass(frozen=True, slots=True)
class ChoiceScale:
    """One of several named findings: value to label, in the order written."""

    values: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class YesNoScale:
    """A finding that is there or is not."""


Scale = NumberScale | ChoiceScale | YesNoScale

FoundBy = Literal["ask", "look", "measure"]
FOUND_BY: tuple[FoundBy, ...] = get_args(FoundBy)


@dataclass(frozen=True, slots=True)
class Measure:
    name: str
    label: str
    scale: Scale
    how: str | None = None
    """A lesson that shows how it is taken, for example `lessons/knee-to-wall.md`."""
    note: str | None = None
    """A line of prose for its page."""
    source: str | None = None
    takes: Fraction = Fraction(1)
    """Minutes that it takes to find out."""
    found_by: FoundBy | None = None
    """As written; see `finding`."""
    taken_with: str | None = None
    """The measure that is read in the same go: asking for either gives both."""
    of_client: bool = False
    """Known of every client without being measured, and never changed: their age."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)

    @property
    def finding(self) -> FoundBy:
        """How it is found out; unless written, a number is measured and all else is asked."""
        return self.found_by or ("measure" if isinstance(self.scale, NumberScale) else "ask")


def first_taken(measures: Mapping[str, Measure], name: str) -> str:
    """The measure by which all that are read in one go with this one can be told to be: where `taken_with`
    leads in the end."""
    seen = [name]
    while (one := measures[seen[-1]].taken_with) is not None and one in measures and one not in seen:
        seen.append(one)
    return seen[-1]


AGE = "age"
"""The name by which tables and cautions read the age of a client, unless a measure has it."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What was found for one measure: trials of a number, or one choice or yes/no."""

    trials: tuple[Fraction, ...] = ()
    """For numbers: one value a trial, each on the grid."""
    finding: str | bool | None = None
    """For choices the value's name, for yes/no the answer."""
