"""The course on its way to pages: its answers, the words around them, and a canvas for each folder."""

from __future__ import annotations

import posixpath
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cached_property, partial

import jinja2

from builder.answers import Answers, addresses
from builder.answers.on_demand import OnDemand
from builder.checks.contact_time import Estimate, amounts, estimate
from builder.course import Course, Edition, Lesson
from builder.editions import label, mark
from builder.problems import Problem
from builder.records import Facts

from . import prose
from .canvas import Canvas, Shared
from .environment import environment


class Site:
    """One course on its way to pages. Pages change nothing in it."""

    def __init__(
        self,
        answers: Answers,
        texts: Mapping[str, str],
        for_educator: Sequence[Problem] | None = None,
        *,
        is_served: bool = False,
    ) -> None:
        """`texts` are the course's files by their path below its folder; they make the build's mark.
        `for_educator` are the problems that the educator's own pages tell; None leaves those pages out.
        `is_served`: the site changes while it is read, so no copy of it is kept on a device."""
        self.is_served = is_served
        self.for_educator = for_educator
        self.answers = answers
        self.words = answers.words
        self._texts = texts
        self._below: dict[int, Shared] = defaultdict(dict)
        self._canvases = OnDemand(self._canvas)
        self._environments = OnDemand(self._environment)

    @property
    def course(self) -> Course:
        return self.answers.course

    @cached_property
    def facts(self) -> Facts:
        """What a record's answers are held against."""
        return Facts(self.answers)

    @cached_property
    def build(self) -> str:
        """Eight hexadecimal digits that change with any file of the course."""
        return mark(self._texts)

    @cached_property
    def edition(self) -> str:
        """What pages and records call this build; see `editions.label`."""
        return label(self.newest, self.build)

    @property
    def newest(self) -> Edition | None:
        """The newest edition that was kept."""
        return next(reversed(self.course.editions), None)

    @cached_property
    def edition_said(self) -> str:
        """The newest edition with its date, and whether the course has changed since; empty where none was
        kept."""
        if self.newest is None:
            return ""
        said = {"version": self.newest.version, "date": self.words.day(self.newest.date)}
        if self.newest.build == self.build:
            return self.words.say("edition {version} of {date}", **said)
        return self.words.say(
            "changed since edition {version} of {date}, build {build}", **said, build=self.build
        )

    @cached_property
    def description(self) -> str:
        """What the course is, as one plain text."""
        return prose.plain(self.course.about.summary) or self.course.about.title

    @cached_property
    def lessons(self) -> tuple[Lesson, ...]:
        """The lessons, in the order of their file names; the opening of the home page is none."""
        lessons = self.course.lessons
        return tuple(lesson for lesson in lessons if addresses.lesson(lesson.file) != addresses.HOME)

    @cached_property
    def contact_time(self) -> Estimate | None:
        """How long the course takes; None where it does not say how to work that out."""
        settings = self.course.about.contact_time
        if settings is None:
            return None
        return estimate(amounts(self.answers, (text for _, text in self.lesson_texts)), settings)

    @property
    def lesson_texts(self) -> Iterator[tuple[str, str]]:
        """Every lesson's file and its Markdown."""
        return ((lesson.file, self._texts.get(lesson.file, "")) for lesson in self.course.lessons)

    def render(self, template: str, here: str, **values: object) -> str:
        """The body of the page at the address `here`."""
        return (
            self._of(here)
            .get_template(template)
            .render(build=self.build, edition=self.edition_said, **values)
        )

    def drawn(self, template: str, here: str, **values: object) -> Callable[[], str]:
        """What makes the body of the page at the address `here` when it is asked for."""
        return partial(self.render, template, here, **values)

    def macro(self, template: str, name: str, here: str, *given: object) -> str:
        """What one macro of a template makes, as a part of the page `here`; quicker than `render` for what is
        made as often as there are clients."""
        return str(getattr(self._of(here).get_template(template).module, name)(*given))

    def once(self, template: str, name: str, here: str, key: str, *given: object) -> str:
        """As `macro`, made once a `key` for all pages of the folder."""
        make = partial(self.macro, template, name, here, *given)
        return self._canvases[posixpath.dirname(here)].once((name, key), make)

    def _of(self, here: str) -> jinja2.Environment:
        return self._environments[posixpath.dirname(here)]

    def _canvas(self, folder: str) -> Canvas:
        depth = folder.count("/") + bool(folder)
        return Canvas(self.course, folder, self._below[depth])

    def _environment(self, folder: str) -> jinja2.Environment:
        return environment(self.answers, self._canvases[folder])
