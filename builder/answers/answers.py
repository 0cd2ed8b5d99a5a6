"""A course and everything that is worked out from it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Set
from fractions import Fraction
from functools import cached_property
from itertools import islice

from builder.course import Case, Course, Exercise, Quiz, digest
from builder.decide.coverage import Coverage, coverage_of
from builder.decide.proofs import Finding
from builder.decide.space import Space
from builder.questions import Item, build_bank, draw_data, draw_quiz, quiz_pool
from builder.questions.practice import Practised, practised
from builder.words import ENGLISH, Words

from .client import ClientAnswers
from .on_demand import OnDemand
from .rules import Rules

_ALIKE = 3
"""Clients whom an unsafe answer leads to."""


class Answers:
    """Everything that a course comes to, each thing made once and only when it is asked for."""

    def __init__(self, course: Course, words: Words = ENGLISH, former: Answers | None = None) -> None:
        """`words` speak the language in which questions and exercises are put. `former` are the
        answers to the course as it was: what was worked out from what has not changed is taken over."""
        self.course = course
        self.words = words
        if former is not None and not former.rules.are_of(course, words):
            former = None
        self.rules: Rules = former.rules if former else Rules(course, words)
        known = former.clients if former else {}
        self.clients: Mapping[str, ClientAnswers] = {
            name: known[name]
            if name in known and known[name].case is case
            else ClientAnswers(self.rules, case)
            for name, case in course.cases.items()
        }
        """By name, in file order."""
        self.pools = OnDemand[str, tuple[Item, ...]](lambda quiz: quiz_pool(course.quizzes[quiz], self.bank))
        """Name of a quiz to every question that it can ask; to be asked by key."""
        self.first_draws = OnDemand[str, tuple[Item, ...]](
            lambda quiz: draw_quiz(course.quizzes[quiz], self.pools[quiz])
        )
        """Name of a quiz to the draw that stands on its page; to be asked by key."""

    def of(self, case: Case) -> ClientAnswers:
        """One client's answers. A client who is not in the course is answered too."""
        known = self.client(case.name)
        return known if known is not None and known.case is case else ClientAnswers(self.rules, case)

    @property
    def order(self) -> tuple[str, ...]:
        return self.rules.order

    @property
    def space(self) -> Space:
        return self.rules.space

    @property
    def proofs(self) -> tuple[Finding, ...]:
        return self.rules.proofs

    def exercise(self, name: str) -> Exercise:
        return self.rules.exercise(name)

    def exercises_of(self, case: str) -> tuple[str, ...]:
        return self.rules.exercises_of(case)

    @cached_property
    def coverage(self) -> Coverage:
        """What the clients of the course reach of the rules and what they do not."""
        found = {name: client.found for name, client in self.clients.items()}
        return coverage_of(self.space, found, self.proofs)

    @cached_property
    def practised(self) -> Practised:
        """The clients whom the builder makes up for practice, and what could not be made."""
        return practised(self.course, self.space)

    @cached_property
    def made_up(self) -> Mapping[str, ClientAnswers]:
        """The clients whom the builder makes up, by name."""
        cases = self.practised.cases
        return {case.name: ClientAnswers(self.rules, case) for case in cases if case.name not in self.clients}

    def client(self, name: str) -> ClientAnswers | None:
        """A client by name, of the course or made up; None where there is none."""
        return self.clients.get(name) or self.made_up.get(name)

    @cached_property
    def bank(self) -> tuple[Item, ...]:
        """Every question, written or made by a family."""
        asks = any(one.cases == "practice" for one in self.rules.families.values())
        made_up = self.made_up if asks else {}
        return build_bank(self.course, self.words, {**made_up, **self.clients}, tuple(made_up))

    def pass_mark(self, quiz: Quiz) -> Fraction:
        return self.course.about.pass_mark if quiz.pass_mark is None else quiz.pass_mark

    def edition(self, quiz: Quiz) -> str:
        """Twelve hexadecimal digits that change with a quiz and with any question that it can ask."""
        data = draw_data(quiz, self.pools[quiz.name])
        asked = [item.digest for item in self.pools[quiz.name]]
        rules = [quiz.marking, quiz.serious, str(self.pass_mark(quiz))]
        never = [data["never"]] if data["never"] else []
        return digest([data["rows"], data["pool"], data["must"], *never, rules, asked], 12)

    def alike(self, item: Item) -> tuple[str, ...]:
        """Up to three other clients to practise what an unsafe answer to an item missed: those who meet a
        caution that it breaks, else those who come to the same outcome; from the item's own client on, around
        to the first. Empty where no answer is unsafe, or the item is about no client."""
        acted = [option.acted for option in item.options if option.acted and option.acted.told == "serious"]
        if not acted or item.case is None:
            return ()
        broken = {breach.caution for one in acted for breach in one.breaks}
        names, places = self._names
        first = places.get(item.case, -1) + 1
        around = (names[number % len(names)] for number in range(first, first + len(names)))
        alike = (
            name for name in around if name != item.case and self._is_alike(self.clients[name], broken, item)
        )
        return tuple(islice(alike, _ALIKE))

    @cached_property
    def _names(self) -> tuple[tuple[str, ...], Mapping[str, int]]:
        """The clients in file order, and the place of each."""
        return tuple(self.clients), {name: place for place, name in enumerate(self.clients)}

    def _is_alike(self, client: ClientAnswers, broken: Set[str], item: Item) -> bool:
        if broken:
            return any(caution.name in broken for caution in client.met)
        asked = self.client(item.case or "")
        if item.table is None or asked is None:
            return False
        return client.decisions[item.table].outcome == asked.decisions[item.table].outcome

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
