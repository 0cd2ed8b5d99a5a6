"""What a check is given, and what it finds."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property
from re import compile

from builder.answers import Answers
from builder.answers.regions import region_in_words
from builder.course import Course, Place, Table
from builder.decide.grid import Value, value
from builder.decide.pathway import is_complete, misplaced, order
from builder.decide.proofs import Finding
from builder.problems import Scalar
from builder.problems.nearest import nearest_word
from builder.source import Loaded
from builder.source.kinds import COURSE, KINDS

from .markup import Address, addresses
from .ways import Ways

_NAME = compile(r"[A-Za-z][A-Za-z0-9_-]*")


@dataclass(eq=False)
class Scope:
    """The course under check, with all that it comes to."""

    answers: Answers
    today: str | None = None
    """YYYY-MM-DD; None leaves out what depends on the day."""
    texts: Mapping[str, str] = field(default_factory=dict)
    """What each file of the course holds."""
    unread: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """By kind, names of what is written but could not be read; nobody is told that they are missing."""
    about_unread: bool = False
    """Whether parts of course.yml could not be read."""
    pathway_unread: bool = False
    """Whether the pathway seems to be among them."""
    attached: tuple[str, ...] = ()
    """Files beside the lessons that are none, such as pictures."""

    @staticmethod
    def of(loaded: Loaded, today: str | None, answers: Answers | None = None) -> Scope:
        errors = [problem for problem in loaded.problems if problem.severity == "error"]
        broken = {problem.file for problem in errors if problem.subject.startswith("file:")}
        unread = {kind.name: set(loaded.left_out.get(kind.name, ())) for kind in KINDS}
        words = {file: set(_NAME.findall(text)) for file, text in loaded.texts.items()} if broken else {}
        for kind in KINDS:
            for file in broken:
                if kind.holds(file):
                    # A file that gives no name away may hold any that the course speaks of.
                    unread[kind.name].update(words.get(file) or set().union(*words.values()))
        about_unread = any(problem.file == COURSE.where for problem in errors)
        keys = _NAME.findall(loaded.texts.get(COURSE.where, "")) or ["pathway"] if about_unread else ()
        return Scope(
            answers or Answers(loaded.course),
            today,
            loaded.texts,
            {kind: frozenset(names) for kind, names in unread.items() if names},
            about_unread,
            not loaded.course.about.pathway and nearest_word("pathway", keys) is not None,
            loaded.attached,
        )

    @property
    def course(self) -> Course:
        return self.answers.course

    @cached_property
    def way(self) -> tuple[str, ...]:
        """The tables in the order in which a client meets them, unread ones among them; empty
        where nobody can say, since the pathway is broken."""
        pathway, unread = self.course.about.pathway, self.unread.get("table", frozenset())
        names = (unread.intersection(pathway) if pathway else unread) - self.course.measures.keys()
        unknown = {name: Table(name, "", "first", (), {}, ()) for name in names}
        course = replace(self.course, tables={**unknown, **self.course.tables})
        broken = pathway and (not is_complete(course) or misplaced(course))
        return () if broken or self.pathway_unread else order(course)

    @property
    def rules_unread(self) -> bool:
        """Whether something is missing by which clients are decided about."""
        return self.about_unread or not self.unread.keys().isdisjoint(("measure", "table", "caution"))

    @cached_property
    def lesson_addresses(self) -> tuple[tuple[str, Address], ...]:
        """Every link and picture of the lessons, each with the lesson's file."""
        files = [lesson.file for lesson in self.course.lessons]
        return tuple((file, found) for file in files for found in addresses(self.texts.get(file, "")))

    @cached_property
    def ways(self) -> Ways:
        """What can be said of each client's way through the tables."""
        return Ways(self.answers, self.way)

    def findings(self, code: str) -> tuple[Finding, ...]:
        """What the proofs found under one code."""
        return tuple(finding for finding in self.answers.proofs if finding.code == code)

    def example(self, finding: Finding) -> Mapping[str, Scalar] | None:
        """The readings of the client whom a finding names, by measure."""
        if finding.client is None:
            return None
        measures = self.course.measures
        return {
            name: plain(value(measures[name], finding.client[name]))
            for name in measures
            if name in finding.client
        }

    def region(self, finding: Finding) -> str:
        """All clients of a finding, in words."""
        return "" if finding.region is None else region_in_words(self.course, finding.region)


@dataclass(frozen=True, slots=True)
class Fault:
    """What one check found; its code and severity are added by the registry."""

    place: Place
    subject: str
    message: str
    hint: str = ""
    example: Mapping[str, Scalar] | None = None
    region: str = ""


Check = Callable[[Scope], Iterator[Fault]]


def plain(value: Value) -> Scalar:
    """A value as JSON has it; whole numbers without a point."""
    if isinstance(value, Fraction):
        return value.numerator if value.denominator == 1 else float(value)
    return value


def nearest(name: str, choices: Iterable[str]) -> str:
    """A hint towards what may have been meant."""
    known = list(dict.fromkeys(choices))
    close = nearest_word(name, known)
    if close:
        return f"Did you mean `{close}`?"
    return f"Choose from: {listed(known)}." if 0 < len(known) <= 8 else ""


def meant(names: Iterable[str], known: Iterable[str]) -> set[str]:
    """What those names that are not known were most likely meant to be."""
    choices = sorted(set(known))
    return {near for name in names if name not in choices if (near := nearest_word(name, choices))}


def listed(names: Iterable[str]) -> str:
    """Names as written in the source, set apart: `a`, `b`."""
    return ", ".join(f"`{name}`" for name in names)
