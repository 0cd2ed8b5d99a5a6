"""Every text of a course that people read, and where it stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.course import (
    AskStep,
    Course,
    DecideStep,
    Drill,
    Exercise,
    Key,
    NumberScale,
    Origin,
    Place,
    Question,
)


@dataclass(frozen=True, slots=True)
class Text:
    text: str
    where: Origin
    subject: str

    @property
    def place(self) -> Place:
        """Worked out only when asked for: nearly every text is good."""
        return self.where.at()


def texts(course: Course) -> Iterator[Text]:
    """Every text that the educator wrote outside lessons, in the order of the model; no empty ones."""
    return (text for text in _all(course) if text.text)


def _all(course: Course) -> Iterator[Text]:
    about = course.about
    texts = _Texts(about.origin, f"course:{about.name}")
    yield from texts.of(title=about.title, summary=about.summary, scope=about.scope, provider=about.provider)
    yield texts.at(about.after_harm, "after_harm")
    if about.responsible is not None:
        for key in ("name", "role", "contact"):
            yield texts.at(getattr(about.responsible, key), "responsible", key)
    if about.emergency is not None:
        yield texts.at(about.emergency.note, "emergency", "note")
    for number, name in enumerate(about.practice.names if about.practice else ()):
        yield texts.at(name, "practice", "names", number)
    for one in about.practice.plausible if about.practice else ():
        yield Text(one.because, one.origin.below("because"), f"course:{about.name}")
    for contact in about.contacts.values():
        yield texts.at(contact.label, "contacts", contact.name, "label")
        yield texts.at(contact.how, "contacts", contact.name, "how")
    for measure in course.measures.values():
        texts = _Texts(measure.origin, f"measure:{measure.name}")
        yield from texts.of(label=measure.label, note=measure.note)
        if isinstance(measure.scale, NumberScale):
            for number, band in enumerate(measure.scale.reference):
                yield texts.at(band.who, "reference", number, "who")
    for objective in course.objectives.values():
        yield from _Texts(objective.origin, f"objective:{objective.name}").of(label=objective.label)
    for term in course.terms.values():
        texts = _Texts(term.origin, f"term:{term.name}")
        yield from texts.of(label=term.label, text=term.text)
        for number, synonym in enumerate(term.synonyms):
            yield texts.at(synonym, "synonyms", number)
    for table in course.tables.values():
        texts = _Texts(table.origin, f"table:{table.name}")
        yield from texts.of(title=table.title, question=table.question, note=table.note)
        for outcome in table.outcomes.values():
            yield from _Texts(outcome.origin, texts.subject).of(label=outcome.label, note=outcome.note)
        for rule in table.rules:
            yield from _Texts(rule.origin, f"rule:{table.name}/{rule.id}").of(because=rule.because)
    for caution in course.cautions.values():
        yield from _Texts(caution.origin, f"caution:{caution.name}").of(
            title=caution.title, text=caution.text
        )
    for case in course.cases.values():
        texts = _Texts(case.origin, f"case:{case.name}")
        yield from texts.of(story=case.story)
        yield texts.at(case.client.name, "client", "name")
        yield texts.at(case.client.about, "client", "about")
        if case.retest is not None:
            yield texts.at(case.retest.after, "retest", "after")
            yield texts.at(case.retest.note, "retest", "note")
    for position in course.positions.values():
        texts = _Texts(position.origin, f"position:{position.name}")
        yield from texts.of(title=position.title, text=position.text)
        for part, under in position.under.items():
            yield texts.at(under, "under", part)
    for drill in course.drills.values():
        yield from _drill(drill)
    for exercise in course.exercises.values():
        yield from _exercise(exercise)
    for question in course.questions.values():
        if isinstance(question, Question):
            yield from _question(question)
    for quiz in course.quizzes.values():
        yield from _Texts(quiz.origin, f"quiz:{quiz.name}").of(title=quiz.title, about=quiz.about)


def _drill(drill: Drill) -> Iterator[Text]:
    texts = _Texts(drill.origin, f"drill:{drill.name}")
    yield from texts.of(title=drill.title, about=drill.about)
    for number, stop in enumerate(drill.stop):
        yield texts.at(stop, "stop", number)
    for number, one in enumerate(drill.cautions):
        yield texts.at(one.change, "cautions", number, "change")
    for phase in drill.phases:
        of_phase = _Texts(phase.origin, texts.subject)
        yield from of_phase.of(label=phase.label)
        for key, listed in (("cues", phase.cues), ("good", phase.good)):
            for number, text in enumerate(listed):
                yield of_phase.at(text, key, number)
        for fault in phase.faults:
            of_fault = _Texts(fault.origin, texts.subject)
            yield from of_fault.of(sign=fault.sign, cause=fault.cause, stop_when=fault.stop_when)
            for number, correction in enumerate(fault.corrections):
                yield of_fault.at(correction.say, "corrections", number, "say")
                yield of_fault.at(correction.reply, "corrections", number, "reply")


def _exercise(exercise: Exercise) -> Iterator[Text]:
    subject = f"exercise:{exercise.name}"
    yield from _Texts(exercise.origin, subject).of(title=exercise.title, about=exercise.about)
    for step in exercise.steps.values():
        texts = _Texts(step.origin, subject)
        if isinstance(step, AskStep):
            yield from texts.of(ask=step.ask)
            for number, choice in enumerate(step.choices):
                yield texts.at(choice.say, "choices", number, "say")
                yield texts.at(choice.reply, "choices", number, "reply")
        elif not isinstance(step, DecideStep):
            yield from texts.of(end=step.end)


def _question(question: Question) -> Iterator[Text]:
    texts = _Texts(question.origin, f"question:{question.id}")
    yield from texts.of(stem=question.stem, why=question.why)
    for number, option in enumerate(question.options):
        yield texts.at(option.text, "options", number, "text")
        yield texts.at(option.why, "options", number, "why")
    for key, listed in (("items", question.items), ("spare", question.spare)):
        for number, text in enumerate(listed):
            yield texts.at(text, key, number)
    for number, pair in enumerate(question.pairs):
        yield texts.at(pair.left, "pairs", number, "left")
        yield texts.at(pair.right, "pairs", number, "right")


@dataclass(frozen=True, slots=True)
class _Texts:
    """The texts of one thing."""

    origin: Origin
    subject: str

    def at(self, text: str | None, *keys: Key) -> Text:
        return Text(text or "", self.origin.below(*keys), self.subject)

    def of(self, **texts: str | None) -> Iterator[Text]:
        return (self.at(text, key) for key, text in texts.items())
