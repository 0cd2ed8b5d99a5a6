"""The age of clients as tables and cautions read it."""

from __future__ import annotations

from fractions import Fraction

from builder.course import AGE, About, Measure, NumberScale

from .catalogue import Words


def age(words: Words, about: About) -> Measure:
    """Age as a measure: the years that the course is for, in steps of 1, without an error."""
    youngest, oldest = map(Fraction, about.ages)
    return Measure(
        AGE,
        words.say("Age"),
        NumberScale(words.say("years"), youngest, oldest, Fraction(1), Fraction(0)),
        note=words.say("Known of every client; nothing is measured."),
        of_client=True,
        origin=about.origin.below("ages"),
    )
