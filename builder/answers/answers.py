"""A course and everything that is worked out from it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from functools import cached_property

from builder.course import Case, Course, Exercise
from builder.decide import pathway
from builder.decide.coverage import Coverage, coverage_of
from builder.decide.proofs import Finding, prove
from builder.decide.space import Space
from builder.exercises import PATHWAY, pathway_exercise
from builder.questions import Item, build_bank, quiz_pool
from builder.words import ENGLISH, Words

from .client import ClientAnswers
from .on_demand import OnDemand


class Answers:
    """Everything that a course comes to, each thing made once and only when it is asked for."""

    def __init__(self, course: Course, words: Words = ENGLISH) -> None:
        """`words` speak the language in which questions and exercises are put."""
        self.course = course
        self.words = words
        self.clients = {name: ClientAnswers(self, case) for name, case in course.cases.items()}
        """By name, in file order."""
        self.pools = OnDemand[str, tuple[Item, ...]](lambda quiz: quiz_pool(course.quizzes[quiz], self.bank))
        """Name of a quiz to every question that it can ask; to be asked by key."""

    def of(self, case: Case) -> ClientAnswers:
        """One client's answers. A client who is not in the course is answered too."""
        known = self.clients.get(case.name)
        return known if known is not None and known.case is case else ClientAnswers(self, case)

    @cached_property
    def order(self) -> tuple[str, ...]:
        """The tables in the order in which they are decided; those in a cycle are left out."""
        return pathway.order(self.course)

    @cached_property
    def space(self) -> Space:
        """All clients who can exist."""
        return Space(self.course)

    @cached_property
    def proofs(self) -> tuple[Finding, ...]:
        """What was found wrong with the rules over all clients who can exist."""
        return prove(self.space)

    @cached_property
    def coverage(self) -> Coverage:
        """What the clients of the course reach of the rules and what they do not."""
        found = {name: client.found for name, client in self.clients.items()}
        return coverage_of(self.space, found, self.proofs)

    @cached_property
    def bank(self) -> tuple[Item, ...]:
        """Every question, written or made by a family."""
        return build_bank(self.course, self.words, self.clients)

    def exercise(self, name: str) -> Exercise:
        """An exercise by name; `PATHWAY` is the one over every table."""
        return self.course.exercises.get(name) or self._pathway

    @cached_property
    def _pathway(self) -> Exercise:
        return pathway_exercise(self.course, self.words)

    def exercises_of(self, case: str) -> tuple[str, ...]:
        """Names of the exercises that a client walks, in file order."""
        listing = (name for name, cases in self._listed.items() if cases is None or case in cases)
        return tuple(listing) or (PATHWAY,)

    @cached_property
    def _listed(self) -> Mapping[str, frozenset[str] | None]:
        """Exercise to the clients that it lists; None for all."""
        exercises = self.course.exercises
        return {n: None if one.cases == "all" else frozenset(one.cases) for n, one in exercises.items()}

    @cached_property
    def following(self) -> Mapping[str, Mapping[str, str]]:
        """Exercise to the clients who walk it, in file order, each with the next, around to the first."""
        sharing: dict[str, list[str]] = defaultdict(list)
        for case in self.course.cases:
            for exercise in self.exercises_of(case):
                sharing[exercise].append(case)
        return {
            exercise: dict(zip(some, [*some[1:], some[0]], strict=True)) for exercise, some in sharing.items()
        }
