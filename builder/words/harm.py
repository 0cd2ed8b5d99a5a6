"""What acting on an answer would have done, in sentences."""

from __future__ import annotations

from collections.abc import Iterable

from .catalogue import Words
from .sentences import joined


def led_to(words: Words, outcomes: Iterable[str]) -> str:
    """`Acted on, this would have led to: on the back.`"""
    return words.say(
        "Acted on, this would have led to: {outcomes}.", outcomes=joined(words, words.say("and"), outcomes)
    )


def allows(words: Words, caution: str, outcomes: Iterable[str]) -> str:
    """`Pregnancy allows: seated, on the side.`"""
    return words.say(
        "{caution} allows: {outcomes}.", caution=caution, outcomes=joined(words, words.say("or"), outcomes)
    )


def not_stopped(words: Words, cautions: Iterable[str]) -> str:
    """`Acted on, nobody would have stopped this client. What calls for it: Chest pain.`"""
    named = joined(words, words.say("and"), cautions)
    if not named:
        return words.say("Acted on, nobody would have stopped this client.")
    return words.say(
        "Acted on, nobody would have stopped this client. What calls for it: {cautions}.", cautions=named
    )


def overcautious(words: Words) -> str:
    return words.say("That is more careful than anything found here asks for. It does no harm by itself.")


def arguable(words: Words) -> str:
    """Before the rest, where measurement error leaves too much doubt."""
    return words.say(
        "This one can be argued: a reading lies so near a line that the truth may lie beyond it. As recorded:"
    )
