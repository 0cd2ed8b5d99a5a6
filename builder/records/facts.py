"""What a course says today of what a record tells of."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal

from builder.answers import Answers
from builder.course import AskStep, DecideStep
from builder.decide.harm import Told
from builder.exercises import PATHWAY, fault_walk
from builder.exercises.page_data import key_digest, right_digest
from builder.questions import Item
from builder.questions.marking import Reply, harm_of, mark
from builder.questions.units import rule_unit

from .record import Attempt


@dataclass(frozen=True, slots=True)
class QuizFacts:
    asks: int
    """Questions in one draw."""
    pass_mark: Fraction
    serious: Literal["fails", "told"]
    digest: str


class Facts:
    """Worked out from a course, each thing when it is asked for."""

    def __init__(self, answers: Answers) -> None:
        self._answers = answers
        self._marked: dict[tuple[str, Reply], tuple[float, Told]] = {}

    @property
    def course(self) -> str:
        """Its name."""
        return self._answers.course.about.name

    @cached_property
    def quizzes(self) -> Mapping[str, QuizFacts]:
        """Quiz to what its marks are worked out by."""
        answers = self._answers
        return {
            name: QuizFacts(
                len(answers.first_draws[name]),
                answers.pass_mark(quiz),
                quiz.serious,
                answers.edition(quiz),
            )
            for name, quiz in answers.course.quizzes.items()
        }

    @cached_property
    def items(self) -> Mapping[str, Item]:
        """Every question by its id."""
        return {item.id: item for item in self._answers.bank}

    @cached_property
    def decided(self) -> Mapping[str, Mapping[str, str]]:
        """Exercise to its steps that decide, each with its table."""
        return {
            name: {at: step.table for at, step in self._answers.exercise(name).steps.items()
                   if isinstance(step, DecideStep)}
            for name in self._exercises
        }  # fmt: skip

    @cached_property
    def asked(self) -> Mapping[str, Mapping[str, str]]:
        """Exercise, or `drill.name`, to its authored steps, each with the digest of its right answer."""
        found = {
            name: {at: right_digest("ask", [choice.say for choice in step.choices if choice.best])
                   for at, step in self._answers.exercise(name).steps.items() if isinstance(step, AskStep)}
            for name in self._exercises
        }  # fmt: skip
        course = self._answers.course
        for drill in course.drills.values():
            walk = fault_walk(course, drill, self._answers.words)
            if walk is not None:
                found[walk.exercise] = {
                    at: key_digest(step) for at, step in walk.steps.items() if step.options
                }
        return found

    @property
    def _exercises(self) -> tuple[str, ...]:
        return tuple(
            name for name in (*self._answers.course.exercises, PATHWAY) if name in self._answers.following
        )

    @cached_property
    def keys(self) -> Mapping[str, Mapping[str, str]]:
        """Table to the digest of each outcome as the right answer."""
        return {
            name: {outcome: right_digest("decide", [outcome]) for outcome in table.outcomes}
            for name, table in self._answers.course.tables.items()
        }

    def outcomes(self, client: str) -> dict[str, str]:
        """Table to a client's outcome, where there is one."""
        known = self._answers.client(client)
        decisions = known.decisions if known else {}
        return {table: one.outcome for table, one in decisions.items() if one.outcome is not None}

    def outcome(self, attempt: Attempt) -> str | None:
        """The right outcome at a step that decides; None at any other."""
        exercise, client, step = _parts(attempt.id)
        table = self.decided.get(exercise, {}).get(step)
        return self.outcomes(client).get(table) if table and client in self._answers.clients else None

    @cached_property
    def _chosen(self) -> Mapping[str, tuple[str, str, Mapping[str, str]]]:
        """Question that asks for a client's outcome of a table, to the table, the client, and option to
        outcome."""
        families = self._answers.rules.families
        asking = {name for name, one in families.items() if one.family == "decision"}
        return {
            item.id: (item.table, item.case, {option.id: option.says for option in item.options})
            for item in self._answers.bank
            if item.family in asking and item.table is not None and item.case is not None
        }

    def choice(self, attempt: Attempt) -> tuple[str, str, str] | None:
        """Table, client and the outcome that was chosen; None where an answer is about no decision, or what
        was answered is not known."""
        if not isinstance(attempt.answer, str):
            return None
        if attempt.kind == "question":
            table, client, outcomes = self._chosen.get(attempt.id, ("", "", {}))
            outcome = outcomes.get(attempt.answer)
            return (table, client, outcome) if outcome else None
        exercise, client, step = _parts(attempt.id)
        table = self.decided.get(exercise, {}).get(step, "")
        known = table and client in self._answers.clients and attempt.answer in self.keys[table]
        return (table, client, attempt.answer) if known else None

    @cached_property
    def _clients(self) -> Mapping[str, tuple[str, ...]]:
        """What is learnt to the clients who carry it, in file order: rules that count for them, cautions that
        they meet (`caution:name`), measures that are read again."""
        found: dict[str, list[str]] = defaultdict(list)
        for name, client in self._answers.clients.items():
            for decision in client.decisions.values():
                found[rule_unit(decision)].append(name)
            for caution in client.met:
                found[f"caution:{caution.name}"].append(name)
            for measure in client.case.retest.readings if client.case.retest else ():
                found[f"retest:{measure}"].append(name)
        return {unit: tuple(names) for unit, names in found.items()}

    def clients_of(self, thing: str) -> tuple[str, ...]:
        """The clients with whom a unit, or a `caution:name`, can be practised."""
        kind, _, rest = thing.partition(":")
        if kind == "step":
            return tuple(self._answers.following.get(rest.partition("/")[0], ()))
        if kind == "question":
            item = self.items.get(rest)
            return (item.case,) if item and item.case else ()
        return self._clients.get(thing, ())

    def marked(self, item: Item, answer: Reply) -> tuple[float, Told]:
        """The mark of an answer to a question of this course, and its harm."""
        given = (item.id, answer)
        if given not in self._marked:  # a team gives the same answers again and again
            self._marked[given] = float(mark(item, answer)), harm_of(item, answer)
        return self._marked[given]

    def now(self, attempt: Attempt) -> tuple[str, str] | None:
        """As `record.Now`."""
        if attempt.kind == "question":
            item = self.items.get(attempt.id)
            return (item.key_digest, item.digest) if item else None
        if attempt.kind != "step":
            return None
        exercise, _, step = _parts(attempt.id)
        outcome = self.outcome(attempt)
        if outcome is not None:
            return self.keys[self.decided[exercise][step]].get(outcome, ""), ""
        key = self.asked.get(exercise, {}).get(step)
        return (key, "") if key else None


def _parts(id: str) -> tuple[str, str, str]:
    """Exercise, client and step of `exercise/client/step`; without a client, as in a drill, it is empty."""
    exercise, _, rest = id.partition("/")
    client, _, step = rest.rpartition("/")
    return exercise, client, step
