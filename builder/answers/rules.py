"""What a course comes to whoever its clients are."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import fields, replace
from functools import cached_property, partial
from operator import is_
from typing import TypeVar, cast

from builder.course import Condition, Course, Exercise, Family, NumberScale
from builder.decide import pathway
from builder.decide.explain import Check
from builder.decide.lines import DrawnLine, drawn_lines
from builder.decide.proofs import Finding, prove
from builder.decide.space import Space
from builder.exercises import PATHWAY, pathway_exercise
from builder.questions.wording import Wording, wording_of
from builder.words import Words, sentences

T = TypeVar("T")


class Rules:
    """A course without clients, lessons and editions, and what follows from it; each thing made once and only
    when it is asked for."""

    def __init__(self, course: Course, words: Words) -> None:
        self.course = replace(course, cases={}, lessons=(), editions=())
        self.words = words
        self._made: dict[Hashable, object] = {}

    def once(self, key: Hashable, make: Callable[[], T]) -> T:
        """What follows from these rules and the key alone, made once for all clients alike."""
        if key not in self._made:
            self._made[key] = make()
        return cast(T, self._made[key])

    def are_of(self, course: Course, words: Words) -> bool:
        """Whether a course has these very rules: the same things, read from the same places."""
        own, others = list(_things(self.course)), list(_things(course))
        is_same = len(own) == len(others) and all(map(is_, own, others))
        return is_same and self.words.course == words.course

    @cached_property
    def graph(self) -> pathway.Graph:
        """Which tables feed which, and in what order they are decided."""
        return pathway.graph(self.course)

    @property
    def order(self) -> tuple[str, ...]:
        """The tables in the order in which they are decided; those in a cycle are left out."""
        return self.graph.order

    @cached_property
    def space(self) -> Space:
        """All clients who can exist."""
        return Space(self.course)

    @cached_property
    def proofs(self) -> tuple[Finding, ...]:
        """What was found wrong with the rules over all clients who can exist."""
        return prove(self.space)

    @cached_property
    def opened_after(self) -> Mapping[str, str | None]:
        """Measure to the table that has to be decided before its reading is looked at: the last one that can
        end a visit ahead of the first that reads it; None where nothing comes before."""
        first: dict[str, str | None] = {}
        ending = None
        for name in self.order:
            for read in self.course.tables[name].inputs:
                first.setdefault(read, ending)
            if any(outcome.ends for outcome in self.course.tables[name].outcomes.values()):
                ending = name
        return {measure: first.get(measure) for measure in self.course.measures}

    def said(self, check: Check) -> str:
        """A condition of these rules beside what was found, in words."""
        name, asked, found = check.input, check.condition, check.found
        told = partial(sentences.check, self.words, self.course, name, asked, found)
        return self.once(("said", name, id(asked), found), told)

    @cached_property
    def lines(self) -> Mapping[str, tuple[DrawnLine, ...]]:
        """Number to the lines that the rules of all tables draw on it."""
        asked: dict[str, list[Condition]] = defaultdict(list)
        for table in self.course.tables.values():
            for rule in table.rules:
                for name, condition in rule.when.items():
                    asked[name].append(condition)
        return {
            name: tuple(dict.fromkeys(drawn_lines(measure.scale, asked[name])))
            for name, measure in self.course.measures.items()
            if isinstance(measure.scale, NumberScale)
        }

    @cached_property
    def wording(self) -> Wording:
        """The texts of families of questions."""
        return wording_of(self.course, self.words)

    @cached_property
    def well_formed(self) -> frozenset[str]:
        """The tables and cautions of the space."""
        return frozenset((*self.space.tables, *self.space.cautions))

    @cached_property
    def families(self) -> Mapping[str, Family]:
        """The families of questions, by their id."""
        return {name: one for name, one in self.course.questions.items() if isinstance(one, Family)}

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


def _things(course: Course) -> Iterator[object]:
    """Everything in a course but clients, lessons and editions."""
    for field in fields(course):
        if field.name not in ("cases", "lessons", "editions"):
            part = getattr(course, field.name)
            yield from part.values() if isinstance(part, Mapping) else (part,)
