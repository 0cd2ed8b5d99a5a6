"""The course as its pages see it: everything computed, each thing once and only when asked for."""

from __future__ import annotations

import hashlib
import posixpath
from collections import defaultdict
from collections.abc import Callable, Hashable, Mapping
from functools import cached_property

from markupsafe import Markup

from builder.course import Case, Course, Exercise, Lesson, Quiz
from builder.decide.doubt import Chance, chance
from builder.decide.evaluate import Decision, findings, met
from builder.decide.explain import Explanation, explain_found
from builder.decide.grid import Value
from builder.decide.space import Space
from builder.exercises import PATHWAY, Walk, bind_walk, pathway_exercise
from builder.questions import Item, build_bank, key_chances, quiz_pool
from builder.questions.families import measures_behind
from builder.words import ENGLISH, Words

from . import prose, uris
from .environment import environment
from .figures import ScaleLine, lines_of


class Site:
    """One course on its way to pages. Pages change nothing in it."""

    def __init__(self, course: Course, texts: Mapping[str, str], words: Words = ENGLISH) -> None:
        """`texts` are the course's files by their path below its folder; they make the build's mark."""
        self.course = course
        self.words = words
        self._texts = texts
        self._explained: dict[str, tuple[Explanation, ...]] = {}
        self._lines: dict[tuple[str, str], tuple[ScaleLine, ...]] = {}
        self._behind: dict[str, tuple[str, ...]] = {}
        self._pools: dict[str, tuple[Item, ...]] = {}
        self._found: dict[str, Mapping[str, Value]] = {}
        self._made_in: dict[Hashable, dict[Hashable, Markup]] = defaultdict(dict)
        self.start(uris.HOME)
        self._environment = environment(self)

    @cached_property
    def build(self) -> str:
        """Eight hexadecimal digits that change with any file of the course."""
        digest = hashlib.sha256()
        for file in sorted(self._texts):
            digest.update(f"{file}\0{self._texts[file]}\0".encode("utf-8", "surrogatepass"))
        return digest.hexdigest()[:8]

    @cached_property
    def description(self) -> str:
        """What the course is, as one plain text."""
        return prose.plain(self.course.about.summary) or self.course.about.title

    def explained(self, case: Case) -> tuple[Explanation, ...]:
        """Every decision for a client, in pathway order."""
        if case.name not in self._explained:
            self._explained[case.name] = explain_found(self.course, self.found(case))
        return self._explained[case.name]

    def found(self, case: Case) -> Mapping[str, Value]:
        """The recorded value of every measure that was read."""
        if case.name not in self._found:
            self._found[case.name] = findings(self.course, case.readings)
        return self._found[case.name]

    def explanation(self, case: Case, table: str) -> Explanation:
        """The decision of one table for a client."""
        return next(one for one in self.explained(case) if one.decision.table == table)

    def decisions(self, case: Case) -> dict[str, Decision]:
        return {one.decision.table: one.decision for one in self.explained(case)}

    def met(self, case: Case) -> tuple[str, ...]:
        """Names of the cautions that a client meets."""
        return tuple(caution.name for caution in met(self.course, case.readings))

    def walk(self, case: Case, exercise: str) -> Walk:
        """A client's walk through one of their exercises."""
        return bind_walk(self.course, self.exercise(exercise), case, self.decisions(case), self.words)

    def exercise(self, name: str) -> Exercise:
        """An exercise by name; `PATHWAY` is the walk over every table."""
        return self.course.exercises.get(name) or self._pathway

    @cached_property
    def _pathway(self) -> Exercise:
        return pathway_exercise(self.course, self.words)

    def exercises_of(self, case: str) -> tuple[str, ...]:
        """Names of the exercises that a client's walks go through, in order."""
        return tuple(self._listing.get(case, ())) or (PATHWAY,)

    @cached_property
    def _listing(self) -> Mapping[str, list[str]]:
        """Client to the exercises that list them."""
        listing: dict[str, list[str]] = defaultdict(list)
        for exercise in self.course.exercises.values():
            for case in self.course.cases if exercise.cases == "all" else dict.fromkeys(exercise.cases):
                listing[case].append(exercise.name)
        return listing

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

    @cached_property
    def bank(self) -> tuple[Item, ...]:
        """Every question, written or made by a family."""
        chances = key_chances(self.space, self._key, self._chance)
        return build_bank(self.course, self.words, chances, self.space, self.explained)

    def _key(self, case: Case, table: str) -> str | None:
        return self.explanation(case, table).decision.outcome

    def _chance(self, case: Case, table: str) -> Chance:
        return chance(self.space, case.readings, table)

    @cached_property
    def space(self) -> Space:
        """All clients who can exist."""
        return Space(self.course)

    def lines(self, table: str, measure: str) -> tuple[ScaleLine, ...]:
        """The lines that a table draws on a number."""
        if (table, measure) not in self._lines:
            found = lines_of(self.course.tables[table], self.course.measures[measure])
            self._lines[table, measure] = found
        return self._lines[table, measure]

    def pool(self, quiz: Quiz) -> tuple[Item, ...]:
        """Every question that a quiz can ask."""
        if quiz.name not in self._pools:
            self._pools[quiz.name] = quiz_pool(quiz, self.bank)
        return self._pools[quiz.name]

    def render(self, template: str, here: str, **values: object) -> str:
        """A page's body. `here` is the address of the page, from which all links start while it is made."""
        self.start(here)
        return self._environment.get_template(template).render(**values)

    def macro(self, template: str, name: str, here: str, *given: object) -> str:
        """What one macro of a template makes, as a part of the page `here`; quicker than `render` for what is
        made as often as there are clients."""
        self.start(here)
        return str(getattr(self._environment.get_template(template).module, name)(*given))

    def start(self, here: str) -> None:
        """From now on links start at the page `here`."""
        self._here = here
        self._made = self._made_in[posixpath.dirname(here)]
        self._made_below = self._made_in[here.count("/")]

    def href(self, to: str) -> str:
        """A link from the page being made."""
        return uris.relative(self._here, to)

    def prose(self, text: str) -> Markup:
        """An educator's prose as blocks."""
        return self.once(("prose", text), prose.blocks, text, self._resolve)

    def line(self, text: str) -> Markup:
        """An educator's prose as one line."""
        return self.once(("line", text), prose.line, text, self._resolve)

    def once(self, key: Hashable, make: Callable[..., str], *given: object) -> Markup:
        """What `make` makes of what is given, made once for all pages of a folder: their links start at the
        same place."""
        return _once(self._made, key, make, *given)

    def once_read(
        self, case: Case, table: str, key: Hashable, make: Callable[..., str], *given: object
    ) -> Markup:
        """As `once`, for what shows nothing of a client but the readings that a table rests on: made once for
        all clients who have the same."""
        if table not in self._behind:
            self._behind[table] = measures_behind(self.course, table)
        read = tuple(case.readings.get(name) for name in self._behind[table])
        return self.once((key, read), make, *given)

    def once_below(self, key: Hashable, make: Callable[..., str], *given: object) -> Markup:
        """As `once`, for what leads to pages at the root alone: made once for all folders of one depth."""
        return _once(self._made_below, key, make, *given)

    @cached_property
    def lessons(self) -> tuple[Lesson, ...]:
        """The lessons, in the order of their file names; the opening of the home page is none."""
        return tuple(lesson for lesson in self.course.lessons if uris.lesson(lesson.file) != uris.HOME)

    @cached_property
    def _lesson_files(self) -> frozenset[str]:
        return frozenset(lesson.file for lesson in self.course.lessons)

    def _resolve(self, address: str) -> str | None:
        """A relative link as an educator writes it, from the course folder: `lessons/x.md`, with `#part`."""
        file, mark, part = address.partition("#")
        if file in self._lesson_files:
            return self.href(uris.lesson(file) + mark + part)
        return None


def _once(made: dict[Hashable, Markup], key: Hashable, make: Callable[..., str], *given: object) -> Markup:
    if key not in made:
        made[key] = Markup(make(*given))
    return made[key]
