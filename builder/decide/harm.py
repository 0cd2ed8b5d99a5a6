"""What acting on an answer would have done to a client (course format, second edition, "Unsafe answers")."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from builder.course import HARMS, SENDS_ON, Caution, Course, Harm

from .evaluate import Decision, decide_table
from .found import Found
from .pathway import Graph

Told = Literal["none", "minor", "arguable", "serious"]
"""The harm of an answer as it is told, from the least to the worst. `arguable`: serious by the recorded
readings, which measurement error may well have put on the wrong side of a line."""
TOLD: tuple[Told, ...] = get_args(Told)

SURELY = 0.95
"""A serious answer counts where the chance of what makes it so is at least this."""


@dataclass(frozen=True, slots=True, order=True)
class Breach:
    """A caution that is met, and the outcome that its demands leave out."""

    caution: str
    table: str
    outcome: str


@dataclass(frozen=True, slots=True)
class ActedOn:
    """What an answer other than the key would have come to."""

    computed: Harm
    breaks: tuple[Breach, ...] = ()
    """Sorted."""
    passed_on: tuple[str, ...] = ()
    """The tables whose key ends and whose answer does not: nobody was stopped there."""
    overcautious: bool = False
    """An answer ends and its key does not: told, by itself no harm."""
    written: Harm = "none"
    """What the educator says of it; needs no chance."""
    because: str = ""
    """Why people answer so, in the educator's words; empty where nobody wrote it."""
    unsure: bool = False
    """Whether measurement error leaves too much doubt about what makes it serious."""

    @property
    def not_stopped(self) -> bool:
        """Whether a key ends and its answer does not."""
        return bool(self.passed_on)

    @property
    def cautions(self) -> list[str]:
        """Those that it breaks, each once."""
        return list(dict.fromkeys(breach.caution for breach in self.breaks))

    @property
    def harm(self) -> Harm:
        """The worse of what is computed and what is written."""
        return self.computed if self.written == "none" else max(self.computed, self.written, key=HARMS.index)

    @property
    def told(self) -> Told:
        """The harm as it counts."""
        return "arguable" if self.harm == "serious" != self.written and self.unsure else self.harm


def acted_on(
    course: Course,
    graph: Graph,
    found: Found,
    decisions: Mapping[str, Decision],
    met: Sequence[Caution],
    table: str,
) -> dict[str, ActedOn]:
    """Every outcome of a table but the key, and what acting on it would have come to, in the order written.
    Empty where the table has no key."""
    key = decisions[table].outcome
    outcomes = course.tables[table].outcomes
    if key not in outcomes:
        return {}
    return {
        answer: judged(course, graph, found, decisions, met, {table: answer})
        for answer in outcomes
        if answer != key
    }


def judged(
    course: Course,
    graph: Graph,
    found: Found,
    decisions: Mapping[str, Decision],
    met: Sequence[Caution],
    answers: Mapping[str, str],
    written: Harm = "none",
) -> ActedOn:
    """What acting on outcomes of several tables at once would have come to. Key outcomes, and what is no
    outcome of a table, count for nothing.

    Acted on means: the recorded readings, the tables' outcomes set to the answers, every other table that
    depends on one of them worked out anew, all else at its key. What follows from a wrong answer counts as
    well: tables that depend on it, also one without a key that is set. After an outcome that ends nothing
    follows.
    """
    named = {
        table: answer
        for table, answer in answers.items()
        if table in course.tables and answer in course.tables[table].outcomes
    }
    keys = {name: one.outcome for name, one in decisions.items() if one.outcome is not None}
    wrong = {
        table: answer
        for table, answer in named.items()
        if keys.get(table) in course.tables[table].outcomes and answer != keys[table]
    }
    going_on = {table for table, answer in wrong.items() if not course.tables[table].outcomes[answer].ends}

    def rests_on(table: str, others: Iterable[str]) -> bool:
        return not set(others).isdisjoint(graph.behind[table])

    def followed() -> dict[str, str]:
        anew = [name for name in graph.order if name not in named and rests_on(name, named)]
        return {
            name: outcome
            for name, outcome in _worked_out(course, found, keys, named, anew).items()
            if name in wrong or (rests_on(name, going_on) and not (name in named and name in keys))
        }

    demanding = [caution for caution in met if caution.demands]
    breaks = tuple(sorted(_breaches(course, demanding, followed()))) if demanding else ()
    stops = {table for table in wrong if course.tables[table].outcomes[keys[table]].ends}
    passed_on = tuple(sorted(stops & going_on))
    harm: Harm = "none"
    if breaks or (passed_on and any(caution.level in SENDS_ON for caution in met)):
        harm = "serious"
    elif passed_on:
        harm = "minor"
    because = ""
    for table, answer in wrong.items():
        for confusion in course.tables[table].confusions:
            if (confusion.answered, confusion.right) == (answer, keys[table]):
                written = max(written, confusion.harm, key=HARMS.index)
                because = because or confusion.because
    return ActedOn(harm, breaks, passed_on, bool(wrong.keys() - going_on - stops), written, because)


def _worked_out(
    course: Course,
    found: Found,
    keys: Mapping[str, str],
    named: Mapping[str, str],
    anew: Sequence[str],
) -> dict[str, str]:
    """The outcomes named, and those that tables come to anew; one without an outcome is left out."""
    came_to = dict(named)
    at_key = {name: outcome for name, outcome in keys.items() if name not in anew}
    for name in anew:
        known = {n: one for n, one in {**at_key, **came_to}.items() if n not in course.measures}
        outcome = decide_table(course.tables[name], {**known, **found.values}).outcome
        if outcome is not None:
            came_to[name] = outcome
    return came_to


def _breaches(course: Course, met: Sequence[Caution], came_to: Mapping[str, str]) -> Iterator[Breach]:
    """Stopping too soon is no breach, but sending someone on who needs an ambulance is."""
    for caution in met:
        for table, outcome in came_to.items():
            allowed = caution.demands.get(table)
            written = course.tables[table].outcomes.get(outcome)
            ends = written is not None and written.ends
            if allowed is not None and outcome not in allowed and (not ends or caution.level == "urgent"):
                yield Breach(caution.name, table, outcome)
