"""What learners do: objectives, exercises, questions, quizzes, lessons."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from .origin import NOWHERE, Origin, nothing
from .rules import Harm, Review, When

Cases = Literal["all"] | tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Objective:
    name: str
    label: str
    level: str | None = None
    """Level after the revised Bloom taxonomy: remember ... create."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class DecideStep:
    """The learner decides `table`; the key is computed for each client."""

    table: str
    go: Mapping[str, str]
    """Outcome to the next step."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Choice:
    say: str
    reply: str
    go: str
    best: bool = False
    harm: Harm = "none"
    caution: str | None = None
    """The caution that a serious harm opens."""
    means: Mapping[str, str] = field(default_factory=nothing)
    """Table to the outcome that it comes to: it is judged as that outcome would be."""


@dataclass(frozen=True, slots=True)
class AskStep:
    """An authored choice; several may be `best`."""

    ask: str
    choices: tuple[Choice, ...]
    objective: str | None = None
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class EndStep:
    end: str
    sends_on: bool = False
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


Step = DecideStep | AskStep | EndStep


@dataclass(frozen=True, slots=True)
class Exercise:
    name: str
    title: str
    cases: Cases
    start: str
    steps: Mapping[str, Step]
    about: str = ""
    objectives: tuple[str, ...] = ()
    readings: Literal["shown", "asked"] = "shown"
    """`asked`: they stay closed until the learner asks for them."""
    reviewed: Review | None = None
    digest: str = field(default="", repr=False, compare=False)
    """Of all that is written of it but its review."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Option:
    text: str
    key: bool = False
    why: str = ""
    harm: Harm = "none"
    means: Mapping[str, str] = field(default_factory=nothing)
    """As a choice's, for the client of the question."""


@dataclass(frozen=True, slots=True)
class Pair:
    left: str
    right: str


QuestionKind = Literal["one", "several", "number", "order", "pairs"]


@dataclass(frozen=True, slots=True)
class Question:
    """A written question. What its kind needs: `options` for one and several, `answer` (with `within` and
    `unit`) for number, `items` in their right order for order, `pairs` (and `spare` right-hand texts)."""

    id: str
    kind: QuestionKind
    objective: str
    stem: str
    options: tuple[Option, ...] = ()
    answer: Fraction | None = None
    within: Fraction = Fraction(0)
    unit: str = ""
    items: tuple[str, ...] = ()
    pairs: tuple[Pair, ...] = ()
    spare: tuple[str, ...] = ()
    why: str = ""
    source: str | None = None
    case: str | None = None
    """The client it is about, whose readings are shown with it."""
    reviewed: Review | None = None
    digest: str = field(default="", repr=False, compare=False)
    """Of all that is written of it but its review."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Family:
    """The builder writes the questions: one per client of a table or a measure, or from a drill."""

    id: str
    family: str
    """One of `questions/families`."""
    table: str
    """Empty for a family that asks about no table."""
    cases: Cases | Literal["practice"]
    """`practice`: the clients whom the builder makes up."""
    objective: str
    drill: str | None = None
    measure: str | None = None
    within: Fraction | None = None
    """read_off: how far off still holds; None to have it worked out."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Implausible:
    """Findings that do not occur together."""

    never: When
    because: str = ""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Practice:
    """Which clients the builder makes up for practice."""

    each: int
    """Clients for each rule."""
    names: tuple[str, ...]
    near: Fraction = Fraction(1, 4)
    """Share of them within one standard error of a line."""
    seed: int = 1
    plausible: tuple[Implausible, ...] = ()
    """What the builder keeps to."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Phrasing:
    """A text of the builder, worded by the course."""

    name: str
    text: str
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class BlueprintRow:
    """So many questions that fit all that is named here. A question counts for the first row that it fits."""

    objective: str | None = None
    count: int = 0
    level: str | None = None
    """The level of its objective."""
    kind: QuestionKind | None = None
    family: str | None = None
    """What sort of family makes it, for example `line`."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)

    @property
    def asks(self) -> tuple[str | None, ...]:
        """All that it names."""
        return self.objective, self.level, self.kind, self.family


@dataclass(frozen=True, slots=True)
class MustInclude:
    """At least so many questions of an objective, or about clients who must be stopped or referred."""

    count: int
    objective: str | None = None
    clients: Literal["stopped", "referred"] | None = None
    """stopped: the right answer ends, and the client meets an urgent caution. referred: all others whose
    right answer ends."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Quiz:
    name: str
    title: str
    questions: tuple[str, ...] = ()
    """Ids of questions and of families; empty where a blueprint draws them."""
    blueprint: tuple[BlueprintRow, ...] = ()
    pass_mark: Fraction | None = None
    """Share of the full mark; None takes the course's."""
    marking: Literal["plain", "certainty"] = "plain"
    serious: Literal["fails", "told"] = "fails"
    """Whether a serious answer keeps the quiz from being passed."""
    must_include: tuple[MustInclude, ...] = ()
    """What every draw holds."""
    never_with: tuple[tuple[str, ...], ...] = ()
    """Ids of questions and families: of each group, no draw holds questions of more than one."""
    no_client_twice: bool = False
    """Whether every draw asks about each client once at most."""
    about: str = ""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Lesson:
    """A reading page: MkDocs' own Markdown, below `lessons/`."""

    file: str
    """Path below the course folder, for example `lessons/knee-to-wall.md`."""
    title: str
