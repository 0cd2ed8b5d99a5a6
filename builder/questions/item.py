"""A question as a learner meets it, whoever wrote it: an educator, or a family."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from builder.course import QuestionKind
from builder.decide.harm import ActedOn, Told

from .figures import Figure

Key = str | tuple[str, ...] | tuple[Fraction, Fraction]
"""one: an option id. several: option ids, sorted. number: value and how far off still holds. order: option
ids in their right order. pairs: for each left-hand text, in order, the option id that belongs to it."""


@dataclass(frozen=True, slots=True)
class ItemOption:
    id: str
    """`a`, `b`, ... in the order shown."""
    text: str
    why: str = ""
    acted: ActedOn | None = None
    """What acting on it would have come to, where that is known."""
    slip: str | None = None
    """The mistake that leads to it, where its family names one."""
    says: str = ""
    """A name for what it claims that no rewording changes, where it has one: an outcome, a level."""

    @property
    def harm(self) -> Told:
        return self.acted.told if self.acted else "none"


@dataclass(frozen=True, slots=True)
class Item:
    id: str
    """The question's id; for a family's, `family.case`, `family.fault`, `family.drill` or
    `family.sound.phase`."""
    kind: QuestionKind
    objective: str
    stem: str
    key: Key
    options: tuple[ItemOption, ...] = ()
    """In the order shown, which never depends on the key's place in the source."""
    lefts: tuple[str, ...] = ()
    """pairs: the left-hand texts."""
    unit: str = ""
    why: str = ""
    source: str | None = None
    case: str | None = None
    """The client whose readings are shown with it."""
    family: str | None = None
    sort: str | None = None
    """The sort of its family, for example `line`."""
    level: str | None = None
    """The level of its objective."""
    asks: str = ""
    """What its family asks about every client alike, for lists; empty for any other question."""
    table: str | None = None
    drill: str | None = None
    """The drill that it is about."""
    figure: Figure | None = None
    """What is drawn with it; without the drawing it cannot be answered."""
    chance: float | None = None
    """decision: the chance of the key given measurement error; None where it was not computed."""
    sends: Literal["stopped", "referred"] | None = None
    """Where the right answer ends: whether the client meets an urgent caution."""
    marked: bool = True
    """False keeps it out of marked quizzes: its key is too unsure."""
    digest: str = ""
    """Hash of its key and of everything that a learner sees before answering."""
    right: str = ""
    """A name for the right answer that no rewording changes; empty where its text is what counts."""
    key_digest: str = ""
    """Hash of its kind and right answer alone: the same after the question was reworded."""
    learnt: str = ""
    """The unit that is learnt: `table/rule`, or a kind and a name, as `question:q-one`."""
    stops: tuple[str, ...] = ()
    """Where the right answer sends the client on: the ids of all options that do."""


def option_id(number: int) -> str:
    """The id of the option at place `number` (from 0): a, b, ... z, aa, ab, ..."""
    before, letter = divmod(number, 26)
    return (option_id(before - 1) if before else "") + chr(ord("a") + letter)
