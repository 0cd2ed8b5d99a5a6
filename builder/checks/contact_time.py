"""How long a course takes, in two ways: by a published formula, and by words, questions and exercises.

The formula: minutes = 0.9 (-22.3 + 0.00209 words + 2.78 questions + 15.5 difficulty); M. A. Mergener,
American Journal of Pharmaceutical Education 1991;55:263-266, as the bodies that use it give it, with the
difficulty from 1, very easy, to 5. Short texts would take less than no time, so it ends at 0. By the other
way words are read at a rate, silent reading of non-fiction by adults being 238 words a minute unless the
course says otherwise (M. Brysbaert, Journal of Memory and Language 2019;109:104047), and each question and
each exercise takes the minutes that the course states.

Both are estimates of how long a learner may take, and no measure of what anybody learns.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from builder.answers import Answers
from builder.course import ContactTime

from .reading import counted, sentences


@dataclass(frozen=True, slots=True)
class Amounts:
    """What a learner meets."""

    words: int
    """Of lessons, cautions and the stories of clients, without titles and sources."""
    questions: int
    """Of the first draw of every quiz."""
    exercises: int
    """Clients worked through, each in each exercise."""


@dataclass(frozen=True, slots=True)
class Estimate:
    """How long a course takes in both ways, in minutes."""

    amounts: Amounts
    settings: ContactTime
    formula: Fraction
    reading: Fraction
    questions: Fraction
    exercises: Fraction

    @property
    def by_time(self) -> Fraction:
        """By words, questions and exercises."""
        return self.reading + self.questions + self.exercises

    @property
    def longer(self) -> Fraction:
        return max(self.formula, self.by_time)


def amounts(answers: Answers, lessons: Iterable[str]) -> Amounts:
    """What a learner of the course meets; `lessons` are their texts."""
    course = answers.course
    texts = [
        *lessons,
        *(one.text for one in course.cautions.values()),
        *(one.story for one in course.cases.values()),
    ]
    settings = course.about.contact_time
    walked = sum(len(answers.exercises_of(name)) for name in course.cases)
    return Amounts(
        sum(counted(sentences(text)).words for text in texts),
        sum(len(answers.first_draws[name]) for name in course.quizzes),
        walked if settings is None or settings.exercises is None else settings.exercises,
    )


def estimate(amounts: Amounts, settings: ContactTime) -> Estimate:
    """Both estimates, exactly."""
    return Estimate(
        amounts,
        settings,
        mergener(amounts.words, amounts.questions, settings.difficulty),
        Fraction(amounts.words) / settings.words_per_minute,
        amounts.questions * settings.minutes_per_question,
        amounts.exercises * settings.minutes_per_exercise,
    )


def mergener(words: int, questions: int, difficulty: Fraction) -> Fraction:
    """Minutes by the formula, 0 at least."""
    minutes = Fraction(9, 10) * (
        Fraction(-223, 10)
        + Fraction(209, 100_000) * words
        + Fraction(278, 100) * questions
        + Fraction(155, 10) * difficulty
    )
    return max(Fraction(0), minutes)


def rounded(minutes: Fraction, rounding: str) -> Fraction:
    """Contact hours as a body rounds them.

    `tenth_unit`: hours of units of ten hours to the nearest tenth of a unit, halves up, none below 30 minutes
    (ANSI/IACET 1-2018). `quarter_hour`: to the nearest quarter, halves up (an athletic training board).
    `whole_hour`: down (perioperative nurses). `none`: as they are.
    """
    hours = minutes / 60
    match rounding:
        case "tenth_unit":
            return Fraction(0) if minutes < 30 else Fraction(math.floor(hours + Fraction(1, 2)))
        case "quarter_hour":
            return Fraction(math.floor(hours * 4 + Fraction(1, 2)), 4)
        case "whole_hour":
            return Fraction(math.floor(hours))
        case _:
            return hours


def units(minutes: Fraction) -> Fraction:
    """Units of ten contact hours, to the nearest tenth, halves up, none below 30 minutes (ANSI/IACET)."""
    return rounded(minutes, "tenth_unit") / 10
