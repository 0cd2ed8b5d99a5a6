"""The page for a Monday morning: what each coach does, what the team does alike, and what to do next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache, cached_property, partial
from pathlib import Path

from babel.dates import format_date
from markupsafe import Markup

from builder.answers import Answers
from builder.records import Attempt, Facts, First, HandedOver, Learner, right_of
from builder.records.team import (
    TEACH,
    Asked,
    Decided,
    Help,
    ToTeach,
    decided,
    first_sitting,
    helps,
    tasks,
    to_teach,
    unsafe_by_caution,
)
from builder.records.told import told
from builder.statistics import clustered, wilson
from builder.words.catalogue import locale_of
from builder.words.numbers import percent

from ..canvas import Canvas
from ..environment import environment
from .alike import OfTable, alike
from .drawn import share_bar
from .things import Named, Things

FEWEST_ON_THE_WALL = 5
"""Coaches behind any figure on the wall: with fewer, people would know whom it is about. Our own choice."""


@dataclass(frozen=True, slots=True)
class Coach:
    """One coach, as the page calls them."""

    label: str
    learner: Learner

    @property
    def missed(self) -> tuple[str, ...]:
        """Clients whom the right answer sends on and a first answer did not."""
        return tuple(sorted(client for client, did in self.learner.stopped.items() if not did))


@dataclass(frozen=True, slots=True)
class OnTheWall:
    stopped: tuple[int, int]
    """Clients stopped, and all whom the right answer sends on, over all coaches."""
    parted: tuple[tuple[OfTable, Named], ...]
    """Decisions and clients about whom the team parts."""


@dataclass(frozen=True, slots=True)
class Share:
    """Right answers of some, with the interval and its drawing."""

    right: int
    of: int
    low: float
    high: float
    drawn: Markup


class Report:
    """All that the page shows, each thing when the template asks for it."""

    def __init__(
        self,
        answers: Answers,
        facts: Facts,
        found: HandedOver,
        labels: Sequence[str],
        site: str | None,
        day: str,
        named: bool,
    ) -> None:
        """`labels` call the learners of `found`, in their order; `site` is the address of the course's site;
        `named`: the labels are the learners' own names, and files may be named too."""
        self.answers = answers
        self.found = found
        self.things = Things(answers, facts, site)
        self.day = day
        self.named = named
        self.linked = site is not None
        self.coaches = tuple(map(Coach, labels, found.learners))
        self.facts = facts

    @cached_property
    def grave_first(self) -> tuple[Coach, ...]:
        """The coaches, those with unsafe answers and missed clients first."""

        def order(coach: Coach) -> tuple[int, int, int, bool, str]:
            one = coach.learner
            return -len(coach.missed), -len(one.serious), -len(one.unasked), not one.stopped, coach.label

        return tuple(sorted(self.coaches, key=order))

    @cached_property
    def unsafe(self) -> tuple[Coach, ...]:
        return tuple(one for one in self.coaches if one.learner.serious)

    @cached_property
    def unasked(self) -> tuple[Coach, ...]:
        return tuple(one for one in self.coaches if one.learner.unasked)

    @cached_property
    def missing(self) -> tuple[Coach, ...]:
        return tuple(one for one in self.coaches if one.missed)

    @cached_property
    def again(self) -> tuple[Coach, ...]:
        """Coaches with answers whose right answer has changed since."""
        return tuple(one for one in self.coaches if one.learner.changed)

    @cached_property
    def sure(self) -> tuple[Coach, ...]:
        return tuple(one for one in self.coaches if one.learner.sure_and_wrong)

    @cached_property
    def objectives(self) -> Mapping[str, str]:
        """The objectives that somebody has answered about, in the course's order, with their labels; after
        them those that the course no longer has."""
        known = self.answers.course.objectives
        tried = {name for one in self.coaches for name in one.learner.objectives}
        labels = {name: one.label for name, one in known.items() if name in tried}
        return labels | {name: name for name in sorted(tried - known.keys())}

    def share(self, firsts: Sequence[First]) -> Share:
        """Answers about one client count as fewer."""
        return _share(*right_of(firsts), clustered(firsts))

    def stopped(self, coach: Coach) -> Share:
        did = coach.learner.stopped
        counts = sum(did.values()), len(did)
        return _share(*counts, wilson(*counts))

    @cached_property
    def quizzes(self) -> tuple[str, ...]:
        """The quizzes of the course, and those that records know beside them."""
        tried = {name for one in self.coaches for name in one.learner.quizzes}
        known = self.answers.course.quizzes
        return (*known, *sorted(tried - known.keys()))

    def sat(self, quiz: str) -> tuple[tuple[Coach, Attempt | None], ...]:
        """The coaches who have begun a quiz, each with the end of their first sitting that counts."""
        return tuple(
            (one, first_sitting(one.learner, quiz)) for one in self.coaches if quiz in one.learner.quizzes
        )

    def unsat(self, quiz: str) -> tuple[Coach, ...]:
        return tuple(one for one in self.coaches if quiz not in one.learner.quizzes)

    def edition(self, coach: Coach, sitting: Attempt | None) -> str:
        """The edition in which a sitting was taken; where the course keeps none, what the copy was saved
        from."""
        if sitting is not None and sitting.edition:
            return sitting.edition
        builds = dict.fromkeys(build for _, build in coach.learner.editions if build)
        return ", ".join(builds)

    @cached_property
    def tasks(self) -> tuple[Asked, ...]:
        return tasks(self.found.learners)

    def helps(self, coach: Coach) -> tuple[Help, ...]:
        return helps(coach.learner, self.facts)

    @cached_property
    def teach(self) -> tuple[ToTeach, ...]:
        return to_teach(self.found.learners, self.facts, TEACH)

    @cached_property
    def broken(self) -> Mapping[str, tuple[tuple[int, Attempt], ...]]:
        return unsafe_by_caution(self.found.learners)

    @cached_property
    def decided(self) -> tuple[Decided, ...]:
        return decided(self.found.learners, self.facts)

    @cached_property
    def alike(self) -> tuple[OfTable, ...]:
        return alike(self.answers, self.facts, self.decided, self.things)

    def labels_of(self, told: Sequence[tuple[int, Attempt]]) -> tuple[str, ...]:
        """The coaches who gave answers, each once."""
        return tuple(dict.fromkeys(self.coaches[place].label for place, _ in told))

    def labels(self, places: Sequence[int]) -> str:
        return ", ".join(self.coaches[place].label for place in places)

    def not_done(self, asked: Asked) -> tuple[Coach, ...]:
        """Coaches whose records hold no end of a task."""
        done = {place for place, _ in asked.done}
        return tuple(one for place, one in enumerate(self.coaches) if place not in done)

    @cached_property
    def odd(self) -> tuple[str, ...]:
        """What was left out of the files, and what to ask about. Files and people are named where names are
        asked for; else by the coaches' labels."""
        whose = {file: one.label for one in self.coaches for file in one.learner.files}
        labels = {id(one.learner): one.label for one in self.coaches}
        words = self.answers.words

        def file(path: str) -> str:
            if self.named:
                return Path(path).name
            return words.say("A file of {coach}", coach=whose[path]) if path in whose else words.say("A file")

        return tuple(told(words, self.found, file, lambda one: labels[id(one)]))

    @cached_property
    def on_the_wall(self) -> OnTheWall | None:
        """Figures of the whole team; None where they would tell of single people."""
        met = [one.learner.stopped for one in self.coaches if one.learner.stopped]
        if len(met) < FEWEST_ON_THE_WALL:
            return None
        stopped = sum(sum(one.values()) for one in met), sum(map(len, met))
        parted = tuple(
            (table, one.client)
            for table in self.alike
            for one in table.parted
            if one.coaches >= FEWEST_ON_THE_WALL
        )
        return OnTheWall(stopped, parted[:FEWEST_ON_THE_WALL])

    @property
    def fewest_on_the_wall(self) -> int:
        return FEWEST_ON_THE_WALL


def report_page(report: Report) -> str:
    """The page for the owner alone."""
    return _drawn("report", report)


def wall_page(report: Report) -> str:
    """One page to print for a wall: what the team works on next. It names no coach, and shows no figure from
    which one could be told."""
    return _drawn("wall", report)


def _drawn(name: str, report: Report) -> str:
    answers = report.answers
    env = environment(answers, Canvas(answers.course, "", {}))
    locale = locale_of(answers.course.about.language, answers.words.language)
    given = {
        "report": report,
        "things": report.things,
        "day_of": cache(lambda day: format_date(date.fromisoformat(day), locale=locale)),
        "percent": partial(percent, answers.words),
        "whole": lambda share: f"{100 * share:.0f}",
        "hundredths": lambda value: f"{value:.2f}".replace(".", answers.words.decimal),
    }
    return env.get_template(f"owner/{name}.html.j2", globals=given).render() + "\n"


def _share(right: int, of: int, interval: tuple[float, float]) -> Share:
    return Share(right, of, *interval, share_bar(right / of, *interval))
