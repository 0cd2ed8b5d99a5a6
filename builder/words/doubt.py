"""How sure a decision is and what would have changed it, in words; never more than the figures carry."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from builder.course import COMMON_PRACTICE, FROM_MEMORY, Course, Measure, NumberScale

from .catalogue import Words
from .numbers import quantity, span
from .sentences import Value, found, joined, label, outcome_label

Ways = Mapping[str, tuple[Value, tuple[Value, ...]]]
"""Measure to the recorded value and the values instead, any of which does."""


def share(words: Words, chance: float) -> str:
    """A chance as so many of 100; neither all nor none where it is not so."""
    number = int(100 * chance + 0.5)
    if number >= 100:
        return words.say("more than 99 of 100")
    if number < 1:
        return words.say("fewer than 1 of 100")
    return words.say("about {number} of 100", number=number)


def sure(words: Words, chance: float) -> str:
    """What the chance of a key says, in the words of the course format."""
    return words.say(
        "If reading error were the only doubt, {share} clients with these readings would be on this side of "
        "the lines; it does not say that the choice suits them.",
        share=share(words, chance),
    )


def certain(words: Words, ends: bool = False) -> str:
    """Instead of `sure` where nothing read with an error could turn the decision. Nothing is said against one
    that ends the visit."""
    if ends:
        return words.say("No reading error counts here.")
    return words.say("No reading error counts here. That does not say that the choice suits this client.")


def unknown(words: Words) -> str:
    """Instead of `sure` where the chance could not be computed."""
    return words.say("Too many readings come together here to work out how sure this is.")


def assumed(words: Words, scale: NumberScale) -> str:
    """That a number's error was not published; empty where it was."""
    said = {"error": quantity(words, scale.sem, scale.unit)}
    if scale.sem_source == COMMON_PRACTICE:
        return words.say("Error of one reading {error}, assumed: no published source.", **said)
    if scale.sem_source == FROM_MEMORY:
        return words.say(
            "Error of one reading {error}, assumed from memory: no published source was read.", **said
        )
    return "" if scale.sem_source else words.say("Error of one reading {error}: no source is named.", **said)


def published(words: Words, scale: NumberScale) -> str:
    """How a published error is told; its source follows."""
    return words.say("Error of one reading {error}, after", error=quantity(words, scale.sem, scale.unit))


def error(words: Words, measure: Measure, trials: int, standard_error: float) -> str:
    """A number's standard error and from how many trials it comes."""
    scale = measure.scale
    assert isinstance(scale, NumberScale)
    said = {"measure": measure.label, "standard": quantity(words, standard_error, scale.unit, 2)}
    if scale.sem_of == "session":
        return words.say(
            "{measure}: standard error {standard}. More trials on one day do not make it smaller.", **said
        )
    return words.count(
        "{measure}: one trial, standard error {standard}.",
        "{measure}: {number} trials, standard error {standard}.",
        trials,
        **said,
    )


def one_more(words: Words, scale: NumberScale, standard_error: float, chance: float) -> str:
    """What another trial would do that leaves the recorded value as it is."""
    return words.say(
        "One more trial would make it {standard}. If the recorded value stayed the same, {share} would then "
        "be on this side.",
        standard=quantity(words, standard_error, scale.unit, 2),
        share=share(words, chance),
    )


def likely(words: Words, scale: NumberScale, low: float, high: float) -> str:
    """What the band of doubt on a strip shows."""
    places = len(str(float(scale.step % 1)).rstrip("0").partition(".")[2]) + 1
    return words.say(
        "Hatched: where the true value lies about 95 times in 100, if only reading error counts ({range}).",
        range=span(words, low, high, scale.unit, places),
    )


def change(
    words: Words, course: Course, table: str, outcome: str, ways: Ways, most: int | None = None
) -> str:
    """Readings that lead elsewhere: `Ankle: 35° instead of 32°. That would lead to: Free`. Of more than
    `most` values that all do, one is named."""

    def told(name: str, value: Value) -> str:
        """In quotes where it is in words, which may hold commas and an `or` of their own."""
        shown = found(words, course, name, value)
        return words.say("“{words}”", words=shown) if isinstance(value, str) else shown

    def changed(name: str, was: Value, instead: tuple[Value, ...]) -> str:
        measure = label(course, name)
        if most is not None and len(instead) > most:
            example = told(name, instead[0])
            return words.say(
                "another answer to “{measure}”, such as {example}", measure=measure, example=example
            )
        new = joined(words, words.say("or"), (told(name, value) for value in instead))
        return words.say("{measure}: {new} instead of {old}", measure=measure, new=new, old=told(name, was))

    return words.say(
        "{changes}. That would lead to: {outcome}",
        changes=joined(words, words.say("and"), (changed(name, *way) for name, way in ways.items())),
        outcome=outcome_label(course, table, outcome),
    )


def difference(words: Words, change: Fraction, unit: str, *, differs: bool, error: float) -> str:
    """Whether a number differs between two tests, and by how much."""
    if change == 0:
        return words.say("No difference.")
    said = {"change": quantity(words, abs(change), unit)}
    more = words.say("{change} more", **said) if change > 0 else words.say("{change} less", **said)
    if error == 0:
        return words.say("{more}. No error is stated for this number, so any difference counts.", more=more)
    if differs:
        return words.say("{more}: more than measurement error.", more=more)
    return words.say("{more}: could be measurement error alone.", more=more)


def unchanged(words: Words) -> str:
    """What the hatching between two tests shows."""
    return words.say(
        "Hatched: where 95 of 100 re-tests of someone who has not changed would fall, by measurement error "
        "alone."
    )
