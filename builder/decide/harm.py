"""What acting on an answer would have done to a client (course format, second edition, "Unsafe answers")."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from builder.course import HARMS, SENDS_ON, Caution, Course, Harm

from .evaluate import Decision, decide_table
from .found import Found
from .pathway import order, tables_behind


@dataclass(frozen=True, slots=True, order=True)
class Breach:
    """A caution that is met, and the outcome that its demands leave out."""

    caution: str
    table: str
    outcome: str


@dataclass(frozen=True, slots=True)
class ActedOn:
    """What an answer other than the key would have come to."""

    harm: Harm
    breaks: tuple[Breach, ...]
    """Sorted."""
    not_stopped: bool
    """The key ends and the answer does not."""
    overcautious: bool
    """The answer ends and the key does not: told, by itself no harm."""
    because: str = ""
    """Why people answer so, in the educator's words; empty where nobody wrote it."""


def acted_on(
    course: Course, found: Found, decisions: Mapping[str, Decision], met: Sequence[Caution], table: str
) -> dict[str, ActedOn]:
    """Every outcome of a table but the key, and what acting on it would have come to, in the order written.

    Acted on means: the recorded readings, this table's outcome set to the answer, every table that depends on
    it worked out anew, all others at their key. Empty where the table has no key.
    """
    key = decisions[table].outcome
    written = course.tables[table]
    if key is None or key not in written.outcomes:
        return {}
    later = [name for name in order(course) if name != table and table in tables_behind(course, name)]
    answers: dict[str, ActedOn] = {}
    for answer, outcome in written.outcomes.items():
        if answer != key:
            came_to = {table: answer}
            if not outcome.ends:
                came_to |= _worked_out(course, found, decisions, table, answer, later)
            answers[answer] = _judged(course, met, table, key, came_to)
    return answers


def _worked_out(
    course: Course, found: Found, decisions: Mapping[str, Decision], table: str, answer: str, later: list[str]
) -> dict[str, str]:
    """The outcomes of the later tables where a table came to an answer; those without an outcome are left
    out."""
    known = dict(found.values)
    for name, decision in decisions.items():
        if decision.outcome is not None and name not in later and name not in course.measures:
            known[name] = answer if name == table else decision.outcome
    came_to: dict[str, str] = {}
    for name in later:
        outcome = decide_table(course.tables[name], known).outcome
        if outcome is not None:
            came_to[name] = outcome
            if name not in course.measures:
                known[name] = outcome
    return came_to


def _judged(
    course: Course, met: Sequence[Caution], table: str, key: str, came_to: Mapping[str, str]
) -> ActedOn:
    answer, outcomes = came_to[table], course.tables[table].outcomes
    breaks = tuple(sorted(_breaches(course, met, came_to)))
    not_stopped = outcomes[key].ends and not outcomes[answer].ends
    harm: Harm = "none"
    if breaks or (not_stopped and any(caution.level in SENDS_ON for caution in met)):
        harm = "serious"
    elif not_stopped:
        harm = "minor"
    because = ""
    for confusion in course.tables[table].confusions:
        if (confusion.answered, confusion.right) == (answer, key):
            harm = max(harm, confusion.harm, key=HARMS.index)
            because = because or confusion.because
    return ActedOn(harm, breaks, not_stopped, outcomes[answer].ends and not outcomes[key].ends, because)


def _breaches(course: Course, met: Sequence[Caution], came_to: Mapping[str, str]) -> Iterator[Breach]:
    """Stopping too soon is no breach, but sending someone on who needs an ambulance is."""
    for caution in met:
        for table, outcome in came_to.items():
            allowed = caution.demands.get(table)
            written = course.tables[table].outcomes.get(outcome)
            ends = written is not None and written.ends
            if allowed is not None and outcome not in allowed and (not ends or caution.level == "urgent"):
                yield Breach(caution.name, table, outcome)
