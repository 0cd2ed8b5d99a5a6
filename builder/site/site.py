"""The course as its pages see it: everything computed, each thing once and only when asked for."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from functools import cached_property

from markupsafe import Markup

from builder.course import Case, Course, Lesson
from builder.decide.evaluate import Decision, met
from builder.decide.explain import Explanation, explain
from builder.exercises import Walk, walks_of
from builder.questions import Item, bank
from builder.words import ENGLISH, Words

from . import prose, uris
from .environment import environment


class Site:
    """One course on its way to pages. Holds no state that a page can change."""

    def __init__(self, course: Course, texts: Mapping[str, str], words: Words = ENGLISH) -> None:
        """`texts` are the course's files by their path below its folder; they make the build's mark."""
        self.course = course
        self.words = words
        self._texts = texts
        self._explained: dict[str, tuple[Explanation, ...]] = {}
        self._walks: dict[str, tuple[Walk, ...]] = {}
        self._environment = environment(self)

    @cached_property
    def build(self) -> str:
        """Eight hexadecimal digits that change with any file of the course."""
        digest = hashlib.sha256()
        for file in sorted(self._texts):
            digest.update(f"{file}\0{self._texts[file]}\0".encode("utf-8", "surrogatepass"))
        return digest.hexdigest()[:8]

    def explained(self, case: Case) -> tuple[Explanation, ...]:
        """Every decision for a client, in pathway order."""
        if case.name not in self._explained:
            self._explained[case.name] = explain(self.course, case.readings)
        return self._explained[case.name]

    def explanation(self, case: Case, table: str) -> Explanation:
        """The decision of one table for a client."""
        return next(one for one in self.explained(case) if one.decision.table == table)

    def decisions(self, case: Case) -> dict[str, Decision]:
        return {one.decision.table: one.decision for one in self.explained(case)}

    def met(self, case: Case) -> tuple[str, ...]:
        """Names of the cautions that a client meets."""
        return tuple(caution.name for caution in met(self.course, case.readings))

    def walks(self, case: Case) -> tuple[Walk, ...]:
        """The walks through each exercise that lists the client; one over every table where none does. Never
        empty for a course with a table."""
        if case.name not in self._walks:
            self._walks[case.name] = walks_of(self.course, case, self.words)
        return self._walks[case.name]

    @cached_property
    def bank(self) -> tuple[Item, ...]:
        """Every question, written or made by a family."""
        return bank(self.course, self.words)

    def render(self, template: str, here: str, **values: object) -> str:
        """A page's body. `here` is the address of the page, from which its links start."""
        return self._environment.get_template(template).render(
            here=here,
            href=lambda to: uris.relative(here, to),
            prose=lambda text: self.prose(text, here),
            line=lambda text: self.line(text, here),
            **values,
        )

    def prose(self, text: str, here: str) -> Markup:
        """An educator's prose as blocks for the page `here`."""
        return prose.blocks(text, lambda address: self._resolve(address, here))

    def line(self, text: str, here: str) -> Markup:
        """An educator's prose as one line for the page `here`."""
        return prose.line(text, lambda address: self._resolve(address, here))

    @cached_property
    def lessons(self) -> tuple[Lesson, ...]:
        """The lessons, in the order of their file names; the opening of the home page is none."""
        return tuple(lesson for lesson in self.course.lessons if uris.lesson(lesson.file) != uris.HOME)

    @cached_property
    def _lesson_files(self) -> frozenset[str]:
        return frozenset(lesson.file for lesson in self.course.lessons)

    def _resolve(self, address: str, here: str) -> str | None:
        """A relative link as an educator writes it, from the course folder: `lessons/x.md`, with `#part`."""
        file, mark, part = address.partition("#")
        if file in self._lesson_files:
            return uris.relative(here, uris.lesson(file) + mark + part)
        return None
