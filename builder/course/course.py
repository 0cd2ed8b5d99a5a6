"""The whole course, as read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, Literal

from .clients import Case
from .drills import Drill
from .learning import Exercise, Family, Lesson, Objective, Phrasing, Practice, Question, Quiz
from .measures import Measure
from .origin import NOWHERE, Origin, nothing
from .positions import Position
from .rules import Caution, Table


@dataclass(frozen=True, slots=True)
class Emergency:
    number: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Contact:
    """Whom a client is sent on to, by role."""

    name: str
    label: str
    how: str = ""


@dataclass(frozen=True, slots=True)
class Responsible:
    """Who answers for the course."""

    name: str
    role: str = ""
    contact: str = ""
    """How to reach them."""


Rounding = Literal["none", "quarter_hour", "whole_hour", "tenth_unit"]


@dataclass(frozen=True, slots=True)
class ContactTime:
    """How the hours of the course are worked out."""

    difficulty: Fraction = Fraction(3)
    """From 1, very easy, to 5, very difficult."""
    words_per_minute: Fraction = Fraction(238)
    minutes_per_question: Fraction = Fraction(1)
    minutes_per_exercise: Fraction = Fraction(4)
    exercises: int | None = None
    """How many clients a learner works through; None for all, in every exercise."""
    rounding: Rounding = "none"


@dataclass(frozen=True, slots=True)
class Source:
    """A CSL-JSON item, as it was written."""

    id: str
    item: Mapping[str, Any]
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Term:
    """A glossary entry."""

    name: str
    label: str
    text: str
    synonyms: tuple[str, ...] = ()
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class About:
    """`course.yml`."""

    name: str
    title: str
    language: str = "en"
    version: str = ""
    summary: str = ""
    pass_mark: Fraction = Fraction(4, 5)
    ages: tuple[int, int] = (0, 120)
    """The youngest and the oldest client whom the course is for, in years."""
    hours: Fraction | None = None
    """Hours as claimed by the educator."""
    contact_time: ContactTime | None = None
    """None where the hours are claimed and not worked out."""
    emergency: Emergency | None = None
    contacts: Mapping[str, Contact] = field(default_factory=nothing)
    pathway: tuple[str, ...] = ()
    accreditation: str | None = None
    provider: str = ""
    scope: str = ""
    """What the course is for and where it ends, in the educator's words."""
    responsible: Responsible | None = None
    after_harm: str = ""
    """What to do after somebody was hurt."""
    reading_grade: Fraction = Fraction(8)
    """The school grade that no caution should pass."""
    practice: Practice | None = None
    """Clients for practice, made up by the builder."""
    origin: Origin = field(default=NOWHERE, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Edition:
    """An edition that was kept, as pages name it."""

    version: str
    date: str
    """YYYY-MM-DD."""
    build: str
    """The mark of a build of the course as it was then."""


@dataclass(frozen=True, slots=True)
class Course:
    """Everything that loaded. What did not load is missing here and is a problem beside it."""

    about: About
    measures: Mapping[str, Measure] = field(default_factory=nothing)
    objectives: Mapping[str, Objective] = field(default_factory=nothing)
    sources: Mapping[str, Source] = field(default_factory=nothing)
    terms: Mapping[str, Term] = field(default_factory=nothing)
    tables: Mapping[str, Table] = field(default_factory=nothing)
    cautions: Mapping[str, Caution] = field(default_factory=nothing)
    cases: Mapping[str, Case] = field(default_factory=nothing)
    exercises: Mapping[str, Exercise] = field(default_factory=nothing)
    questions: Mapping[str, Question | Family] = field(default_factory=nothing)
    quizzes: Mapping[str, Quiz] = field(default_factory=nothing)
    positions: Mapping[str, Position] = field(default_factory=nothing)
    drills: Mapping[str, Drill] = field(default_factory=nothing)
    wording: Mapping[str, Phrasing] = field(default_factory=nothing)
    lessons: tuple[Lesson, ...] = ()
    """In the order of their file names."""
    editions: tuple[Edition, ...] = ()
    """By date, then version; the newest is the last."""


COMMON_PRACTICE = "common-practice"
FROM_MEMORY = "from-memory"
RESERVED_SOURCES = (COMMON_PRACTICE, FROM_MEMORY)
