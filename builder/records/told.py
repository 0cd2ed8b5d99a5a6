"""What was left out of records, and what to ask about, in sentences."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from builder.words import Words

from .handed_over import Doubted, HandedOver
from .plausible import Reason
from .record import Attempt
from .summary import Learner

_NAMED = 5
"""Attempts told at most."""


def told(
    words: Words, found: HandedOver, file: Callable[[str], str], learner: Callable[[Learner], str]
) -> Iterator[str]:
    """A sentence each. `file` and `learner` say what those are called; who reads along may not see names."""
    say = words.say
    for path, record in found.records:
        if record.unread:
            places = ", ".join(map(str, record.unread[:_NAMED]))
            yield say(
                "{file}: attempts that cannot be read and are left out: {number} (number {places}). "
                "The rest counts.",
                file=file(path),
                number=len(record.unread),
                places=places + (", ..." if len(record.unread) > _NAMED else ""),
            )
    for path in dict.fromkeys(one.file for one in found.doubted):
        doubted = [one for one in found.doubted if one.file == path]
        named = "; ".join(_doubt(words, one) for one in doubted[:_NAMED])
        yield say(
            "{file}: attempts that cannot be true and do not count: {number} ({attempts}).",
            file=file(path),
            number=len(doubted),
            attempts=named + ("; ..." if len(doubted) > _NAMED else ""),
        )
    for path, number in found.changed:
        yield say(
            "{file}: answers that count for nothing, since the right answer has changed: {number}.",
            file=file(path),
            number=number,
        )
    for twin in found.doubled:
        values = {"file": file(twin.file), "other": file(twin.other)}
        if twin.is_same:
            yield say("{file}: all of it stands in {other} too, and counts once.", **values)
        else:
            yield say("{file}: all of it stands in {other} too, under another name. Whose is it?", **values)
    for one in found.learners:
        values = {"learner": learner(one)}
        if one.also:
            yield say("{learner}: records with names that are written differently count as one.", **values)
        if len(one.devices) > 1:
            number = len(one.devices)
            yield say("{learner}: records of {number} devices count as one.", **values, number=number)
    for device, several in found.shared.items():
        yield say(
            "One device, {device}, handed over under several names: {names}.",
            device=device[:8],
            names=", ".join(map(learner, several)),
        )
    for bad in found.bad:
        yield say("{file}: {message}", file=file(bad.file), message=bad.message)


def _doubt(words: Words, one: Doubted) -> str:
    reasons: dict[Reason, str] = {
        "mark": words.say("its mark is not what its answers give"),
        "future": words.say("its day has not come yet"),
        "quiz": words.say("this course has no such quiz"),
    }
    return words.say("{attempt}: {reason}", attempt=on_day(words, one.attempt), reason=reasons[one.reason])


def on_day(words: Words, attempt: Attempt) -> str:
    return words.say("{attempt} on {day}", attempt=attempt.id, day=attempt.at[:10])
