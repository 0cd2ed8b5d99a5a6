"""A decision tree bound to one client: what is asked, what holds, where each answer leads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from builder.decide.harm import ActedOn, Told


@dataclass(frozen=True, slots=True)
class WalkOption:
    id: str
    """decide: the outcome's name. ask: `a`, `b`, ... in the order written."""
    text: str
    best: bool
    go: str
    """The next step. After a decide step this is the key's step, whatever was answered."""
    harm: Told = "none"
    reply: str = ""
    cautions: tuple[str, ...] = ()
    """Opened by this answer."""
    acted: ActedOn | None = None
    """What acting on it would have come to, where that is worked out."""


@dataclass(frozen=True, slots=True)
class WalkStep:
    id: str
    kind: Literal["decide", "ask", "end"]
    prompt: str
    """The table's question, the authored question, or how the walk ends."""
    options: tuple[WalkOption, ...] = ()
    table: str | None = None
    objective: str | None = None
    cautions: tuple[str, ...] = ()
    """Cautions that open once it is answered (an end: once it is reached), never before: those that the
    client meets and this table decides on, and those that its outcome carries. One may open at several
    steps."""
    sends_on: bool = False
    learnt: str = ""
    """The unit that is learnt, as of a question; empty at an end."""
    stops: tuple[str, ...] = ()
    """Where the right answer sends the client on: the ids of all options that do."""


@dataclass(frozen=True, slots=True)
class Walk:
    exercise: str
    case: str
    title: str
    start: str
    steps: Mapping[str, WalkStep]
    """Only steps that can be reached from `start` for this client."""
    best_path: tuple[str, ...]
    """Ids of the shortest path of best answers, its end included; empty where these reach no end."""
    asked: bool = False
    """Whether readings stay closed until they are asked for."""
