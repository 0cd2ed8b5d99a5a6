"""What a quiz asks, in plain words, as its blueprint has it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import BlueprintRow, Course, MustInclude, Quiz
from builder.words import Words

from . import prose


def lines(words: Words, course: Course, quiz: Quiz) -> Iterator[str]:
    """A sentence for each row of the blueprint, and for each thing that every draw keeps to; none for a quiz
    that lists its questions."""
    for row in quiz.blueprint:
        yield _row(words, course, row)
    for must in quiz.must_include:
        yield _must(words, course, must)
    if quiz.no_client_twice:
        yield words.say("No client comes twice.")
    if quiz.never_with:
        yield words.say("Questions that give each other away never come together.")


def _row(words: Words, course: Course, row: BlueprintRow) -> str:
    traits = [
        trait
        for trait in (
            row.family and _family(words, row.family),
            row.kind and _kind(words, row.kind),
            row.level and _level(words, row.level),
        )
        if trait
    ]
    said = words.count("{number} question", "{number} questions", row.count)
    if row.objective is not None:
        said = words.say("{questions}: {objective}", questions=said, objective=_label(course, row.objective))
    return words.say("{what} ({traits})", what=said, traits=", ".join(traits)) if traits else said


def _must(words: Words, course: Course, must: MustInclude) -> str:
    if must.objective is not None:
        return words.count(
            "At least {number} on: {objective}",
            "At least {number} on: {objective}",
            must.count,
            objective=_label(course, must.objective),
        )
    if must.clients == "stopped":
        return words.count(
            "At least {number} client for whom you must call for help",
            "At least {number} clients for whom you must call for help",
            must.count,
        )
    return words.count("At least {number} client to refer", "At least {number} clients to refer", must.count)


def _label(course: Course, objective: str) -> str:
    return prose.plain(course.objectives[objective].label) if objective in course.objectives else objective


def _level(words: Words, level: str) -> str:
    match level:
        case "remember":
            return words.say("to remember")
        case "understand":
            return words.say("to understand")
        case "apply":
            return words.say("to apply")
        case "analyze":
            return words.say("to take apart")
        case "evaluate":
            return words.say("to judge")
        case _:
            return words.say("to create")


def _kind(words: Words, kind: str) -> str:
    match kind:
        case "one":
            return words.say("one answer is right")
        case "several":
            return words.say("several answers may be right")
        case "number":
            return words.say("with a number")
        case "order":
            return words.say("to put in order")
        case _:
            return words.say("to match")


def _family(words: Words, family: str) -> str:
    match family:
        case "decision":
            return words.say("what to decide for a client")
        case "because":
            return words.say("why it is decided so")
        case "line":
            return words.say("how near the line is")
        case "other_finding":
            return words.say("what would change the answer")
        case "caution":
            return words.say("what the findings ask of you")
        case "retest":
            return words.say("whether a re-test differs")
        case "needs":
            return words.say("which readings are enough")
        case "said":
            return words.say("what a client's words come to")
        case "read_off":
            return words.say("what number a drawing shows")
        case "look":
            return words.say("what is seen")
        case "fault":
            return words.say("what to do about a sign")
        case _:
            return words.say("the order of a drill")
