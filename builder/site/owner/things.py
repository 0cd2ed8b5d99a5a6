"""What records name, in words, and where the course's site shows it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from builder.answers import Answers, addresses
from builder.records import Attempt, Facts
from builder.words import sentences

from .. import prose
from ..excerpts import short


@dataclass(frozen=True, slots=True)
class Named:
    """Something of the course. What this edition no longer has is called as the record calls it."""

    words: str
    href: str | None = None
    """The whole address; None where the site's is not known or has no such page."""
    more: str = ""
    """What tells it apart."""


class Things:
    """Names whatever records tell of."""

    def __init__(self, answers: Answers, facts: Facts, site: str | None) -> None:
        """`site` is the address of the course's site, such as https://example.org/course/."""
        self._answers = answers
        self._facts = facts
        self._site = site.rstrip("/") if site else None

    def address(self, page: str) -> str | None:
        return f"{self._site}/{page}" if self._site else None

    def client(self, name: str) -> Named:
        known = self._answers.client(name)
        if known is None:
            return Named(name)
        has_page = name in self._answers.course.cases
        return Named(known.case.client.name, self.address(addresses.client(name)) if has_page else None)

    def clients(self, names: Iterable[str]) -> tuple[Named, ...]:
        return tuple(map(self.client, names))

    def quiz(self, name: str) -> Named:
        quiz = self._answers.course.quizzes.get(name)
        return Named(prose.plain(quiz.title), self.address(addresses.quiz(name))) if quiz else Named(name)

    def caution(self, name: str) -> Named:
        if not name:
            return Named(self._answers.words.say("No caution asks for more"))
        caution = self._answers.course.cautions.get(name)
        return Named(caution.title, self.address(addresses.caution(name))) if caution else Named(name)

    def thing(self, thing: str) -> Named:
        """A unit, or `caution:name`."""
        kind, mark, rest = thing.partition(":")
        makers: dict[str, Callable[[str], Named | None]] = {
            "caution": self.caution,
            "question": self._question,
            "step": self._step,
            "fault": self._fault,
            "order": self._order,
            "retest": self._retest,
            "reading": self._reading,
        }
        named = makers[kind](rest) if mark and kind in makers else self._rule(thing)
        return named or Named(thing)

    def asked(self, attempt: Attempt) -> Named:
        """What an answer answered."""
        if attempt.kind == "question":
            item = self._facts.items.get(attempt.id)
            if item is None:
                return Named(attempt.id)
            page = addresses.single(attempt.quiz, item.id) if attempt.quiz else None
            return Named(short(item.stem), self.address(page) if page else None)
        exercise, _, rest = attempt.id.partition("/")
        client, _, step = rest.rpartition("/")
        table = self._facts.decided.get(exercise, {}).get(step)
        heard = self._answers.course.measures.get(step.removeprefix("said."))
        if heard is not None and step.startswith("said."):
            who = self.client(client)
            said = self._answers.words.say(
                "{client}: what their words come to ({measure})", client=who.words, measure=heard.label
            )
            return Named(said, who.href)
        if table is None:
            return self._step(f"{exercise}/{step}") or Named(attempt.id)
        who = self.client(client)
        asks = self._answers.course.tables[table].question
        return Named(
            self._answers.words.say("{client}: {question}", client=who.words, question=asks), who.href
        )

    def _rule(self, thing: str) -> Named | None:
        table_name, _, rule_name = thing.partition("/")
        course, words = self._answers.course, self._answers.words
        table = course.tables.get(table_name)
        rule = next((one for one in table.rules if one.id == rule_name), None) if table else None
        if table is None or rule is None:
            return None
        title = words.say(
            "{client}: {question}",
            client=sentences.table_label(table),
            question=sentences.outcome_label(course, table_name, rule.then),
        )
        more = short(sentences.when(words, course, rule.when)) if rule.when else ""
        return Named(title, self.address(addresses.table(table_name)), more)

    def _question(self, name: str) -> Named | None:
        item = self._facts.items.get(name)
        if item is None:
            return None
        quizzes = (q for q in self._answers.course.quizzes if item in self._answers.pools[q])
        quiz = next(quizzes, None)
        return Named(short(item.stem), self.address(addresses.single(quiz, name)) if quiz else None)

    def _step(self, name: str) -> Named | None:
        exercise, _, step = name.partition("/")
        course = self._answers.course
        if exercise.startswith("drill."):
            drill = course.drills.get(exercise.removeprefix("drill."))
            return self._of_drill(drill.name, prose.plain(drill.title)) if drill else None
        if exercise not in course.exercises:
            return None
        asked = getattr(course.exercises[exercise].steps.get(step), "ask", "")
        return Named(prose.plain(asked)) if asked else None

    def _fault(self, name: str) -> Named | None:
        drill_name, _, fault_name = name.partition("/")
        drill = self._answers.course.drills.get(drill_name)
        faults = (fault for phase in drill.phases for fault in phase.faults) if drill else ()
        fault = next((one for one in faults if one.id == fault_name), None)
        return self._of_drill(drill_name, prose.plain(fault.sign)) if fault else None

    def _order(self, name: str) -> Named | None:
        drill = self._answers.course.drills.get(name)
        if drill is None:
            return None
        words = self._answers.words.say("The order of “{drill}”", drill=prose.plain(drill.title))
        return self._of_drill(name, words)

    def _of_drill(self, drill: str, words: str) -> Named:
        return Named(words, self.address(addresses.drill(drill)))

    def _reading(self, name: str) -> Named | None:
        measure = self._answers.course.measures.get(name)
        return Named(measure.label, self.address(addresses.measure(name))) if measure else None

    def _retest(self, name: str) -> Named | None:
        measure = self._answers.course.measures.get(name)
        if measure is None:
            return None
        words = self._answers.words.say("{measure}: has it changed?", measure=measure.label)
        return Named(words, self.address(addresses.measure(name)))
