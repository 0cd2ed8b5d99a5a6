"""A course and everything that is worked out from it, over all its clients and for each of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from functools import cached_property

from builder.course import Case, Caution, Course, Exercise
from builder.decide import pathway
from builder.decide.coverage import Coverage, coverage_of
from builder.decide.doubt import Chance, chance_of_meeting, chances
from builder.decide.evaluate import Decision, met
from builder.decide.explain import Explanation, explain
from builder.decide.found import Found, find
from builder.decide.harm import ActedOn, acted_on
from builder.decide.near_lines import NearLine, is_known_near, near_lines
from builder.decide.nearest import Change, nearest
from builder.decide.proofs import Finding, prove
from builder.decide.retest import Retested, retest
from builder.decide.space import Space
from builder.exercises import PATHWAY, Walk, bind_walk, pathway_exercise
from builder.questions import Item, build_bank, quiz_pool
from builder.words import ENGLISH, Words

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


class ClientAnswers:
    """Everything that a course says about one client, each thing made once and only when it is asked for.

    Mappings by table hold well-formed tables alone, but `explained` and `decisions`, which hold all.
    """

    def __init__(self, answers: Answers, case: Case) -> None:
        self._answers = answers
        self.case = case
        self.lines = OnDemand[str, tuple[NearLine, ...]](
            lambda table: near_lines(answers.space, self.found, table)
        )
        """Table to the nearest lines of every number that could turn it; to be asked by key."""
        self.nearest = OnDemand[str, tuple[Change, ...]](
            lambda table: nearest(answers.space, self.found, table)
        )
        """Table to the cheapest other readings that lead elsewhere; to be asked by key."""
        self.known_near = OnDemand[str, bool](
            lambda table: is_known_near(answers.space, self.found, table, case.near_cut)
        )
        """Table to whether the author names the number whose line is nearest; to be asked by key."""
        self.chance_of_meeting = OnDemand[str, float | None](
            lambda caution: chance_of_meeting(answers.space, self.found, caution)
        )
        """Caution to the chance of meeting it, None where it cannot be told; to be asked by key."""
        self.acted_on = OnDemand[str, Mapping[str, ActedOn]](
            lambda table: acted_on(answers.course, self.found, self.decisions, self.met, table)
        )
        """Table to what acting on each outcome but the key would have come to; to be asked by key."""
        self.walks = OnDemand[str, Walk](self._walk)
        """Exercise to this client's walk through it; to be asked by key."""

    @cached_property
    def found(self) -> Found:
        """What was found of the client."""
        return find(self._answers.course, self.case.readings)

    @cached_property
    def found_again(self) -> Found | None:
        """What was found at the re-test; None for a client who was not tested again."""
        again = self.case.retest
        return None if again is None else find(self._answers.course, again.readings)

    @cached_property
    def explained(self) -> Mapping[str, Explanation]:
        """Table to its decision with the reasons, in pathway order."""
        told = explain(self._answers.course, self.found, self._answers.order)
        return {one.decision.table: one for one in told}

    @cached_property
    def decisions(self) -> Mapping[str, Decision]:
        """Table to its decision, in pathway order."""
        return {table: one.decision for table, one in self.explained.items()}

    @cached_property
    def met(self) -> tuple[Caution, ...]:
        """The cautions that the client meets, by name."""
        return met(self._answers.course, self.found)

    @cached_property
    def chances(self) -> Mapping[str, Chance]:
        """Table to how sure its outcomes are."""
        return chances(self._answers.space, self.found)

    def chance_of_key(self, table: str) -> float | None:
        """How sure the outcome of a table is; None where there is no outcome, or the table is not
        well-formed."""
        outcome = self.decisions[table].outcome
        if outcome is None or table not in self._answers.space.tables:
            return None
        return self.chances[table].chance[outcome]

    @cached_property
    def retested(self) -> Retested | None:
        """What the re-test shows; None for a client who was not tested again."""
        again = self.found_again
        return None if again is None else retest(self._answers.course, self.found, again)

    @property
    def exercises(self) -> tuple[str, ...]:
        """Names of the exercises that the client walks, in file order."""
        return self._answers.exercises_of(self.case.name)

    def _walk(self, exercise: str) -> Walk:
        answers = self._answers
        return bind_walk(
            answers.course, answers.exercise(exercise), self.case, self.decisions, self.met, answers.words
        )
