"""What families of questions say: the builder's own texts by name, which a course may word anew.

A course of another trade puts its own texts in `wording/`. What is put in stands in braces; a text of the
course fills in the same things as the builder's.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from string import Formatter

from builder.course import Course
from builder.words import Words, phrase

TEXTS: Mapping[str, str] = {
    "decision-stem": phrase("{client}: {question}"),
    "decision-rest": phrase("It is for everyone who is left."),
    "other-finding-stem": phrase(
        "{client}: {question}\n\nThe answer is: {outcome}. Which one of these findings, all else as it "
        "is, would change it?"
    ),
    "other-finding-list": phrase("{question} Which finding would change the answer?"),
    "other-finding-stays": phrase("The answer stays: {outcome}."),
    "other-finding-why": phrase("With {finding} the answer becomes: {outcome}."),
    "retest-stem": phrase(
        "{client}, measured again after {after}. {measure}: {first} at first, now {again}. Is the "
        "difference larger than measurement error alone would make it?"
    ),
    "retest-list": phrase("Is the difference larger than measurement error alone would make it?"),
    "retest-yes": phrase("Yes, it is larger than measurement error"),
    "retest-no": phrase("No, measurement error alone could make it"),
    "retest-why": phrase(
        "The difference is {apart}. The standard error of one reading is {sem}. In 95 of 100 re-tests of "
        "someone who has not changed, the difference stays within {limit}."
    ),
    "line-stem": phrase(
        "{client}: {question}\n\nThe answer is: {outcome}. {finding}. Were this reading alone another, which "
        "is the least change that gives another answer?"
    ),
    "line-list": phrase("{question} Which change of one reading is the least that gives another answer?"),
    "line-up": phrase("{value} or more: {outcome}"),
    "line-down": phrase("{value} or less: {outcome}"),
    "line-why": phrase(
        "The line lies at {line}, {distance} from what was read. The standard error of this reading is "
        "{error}."
    ),
    "line-mirrored": phrase("That is the other way. There the answer stays, or another line comes first."),
    "line-error": phrase("That is as far as one standard error, not as far as the line."),
    "line-neighbour": phrase("The line is the right one, but this is not what lies beyond it."),
    "line-further": phrase("That line is there, but it is not the nearest."),
    "because-stem": phrase("{client}: {question}\n\nThe answer is: {outcome}. Why?"),
    "because-list": phrase("{question} Why?"),
    "because-other": phrase("That is the reason for another answer: {outcome}. {lacks}"),
    "because-same": phrase("That would lead to the same answer, but it does not hold here. {lacks}"),
    "caution-stem": phrase("{client}: what do these findings ask of you?"),
    "caution-list": phrase("What do these findings ask of you?"),
    "caution-go-on": phrase("Go on as planned"),
    "caution-adapt": phrase("Go on, and adapt what you do"),
    "caution-refer": phrase("Stop, and send the client to a clinician"),
    "caution-call": phrase("Stop, and call for emergency help now"),
    "caution-met": phrase("This client meets: {cautions}."),
    "caution-none": phrase("Nothing in these readings asks for more."),
    "caution-ends": phrase("{question} The answer is: {outcome}."),
    "caution-less": phrase("It asks for less than these findings do."),
    "caution-more": phrase("It asks for more than these findings do."),
    "needs-stem": phrase(
        "{client}: {question}\n\nWith these readings, which of them are enough to know the answer, and no "
        "more than enough?"
    ),
    "needs-list": phrase("{question} Which readings are enough to know the answer?"),
    "needs-lacks": phrase("Without this one it is not known: {measure}."),
    "needs-more": phrase("This one is not needed: {measure}."),
    "needs-why": phrase("Everybody who answers alike to these comes to the same answer: {outcome}."),
    "said-stem": phrase("{client} says: “{words}” What does that come to for “{measure}”?"),
    "said-list": phrase("What do a client's words come to for “{measure}”?"),
    "said-other": phrase("These words do not say so."),
    "said-why": phrase("It comes to: {value}."),
    "slip-neighbour": phrase("It lies beyond the nearest line, {distance} away."),
    "slip-mirrored": phrase("Whoever reads the line the other way round comes to it."),
    "slip-skipped": phrase("Whoever leaves out “{table}” comes to it."),
    "slip-unrounded": phrase("Whoever does not round the mean to {step} comes to it."),
    "slip-single": phrase("Whoever takes one trial instead of the mean comes to it."),
    "fault-stem": phrase("{drill}. {ask}"),
    "fault-ask": phrase("{phase}: {sign}. What do you do first?"),
    "fault-other-sign": phrase("That belongs to another sign: {sign}"),
    "fault-carry-on": phrase("Carry on to the last breath, and watch it"),
    "fault-stop": phrase("This sign says stop."),
    "fault-cause": phrase("Likely cause: {cause}"),
    "fault-next": phrase("If that does not help: {what}"),
    "fault-stop-when": phrase("When to stop: {when}"),
    "look-stem": phrase("{drill}. {phase}: what do you see?"),
    "look-nothing": phrase("Nothing is off"),
    "look-other": phrase("This is not seen here."),
    "look-missed": phrase("Something is off: {sign}"),
    "look-sound": phrase("So it looks when it goes well."),
    "read-off-stem": phrase("{client}: read “{measure}” off the drawing. What number does it show?"),
    "read-off-list": phrase("What number does the drawing show for “{measure}”?"),
    "read-off-why": phrase("It shows {value}. Whatever is no more than {within} away counts as right."),
    "sequence-stem": phrase("{drill}: put its phases in order."),
    "nobody": phrase("Nobody gets this answer here."),
    "left-but-later": phrase("It is for whoever is left, but something else comes first."),
    "fits-but-later": phrase("It would fit too ({asked}), but something else comes first."),
}
"""By name: what it says for begins the name. Translated where the interface is."""


class Wording:
    """Says the texts of a course: its own where it has one, else the builder's in the language of `words`."""

    def __init__(self, words: Words, own: Mapping[str, str]) -> None:
        """`own` are texts without faults, by name; see `faults`."""
        self.words = words
        self._own = own

    def text(self, name: str, /, **values: object) -> str:
        """The text of this name, with `{name}` fields filled from `values`."""
        own = self._own.get(name)
        if own is None:
            return self.words.say(TEXTS[name], **values)
        return own.format(**values)


def wording_of(course: Course, words: Words) -> Wording:
    """The texts of a course; one of its own that cannot be used gives way to the builder's."""
    own = {name: one.text for name, one in course.wording.items() if not faults(name, one.text)}
    return Wording(words, own)


def filled_in(text: str) -> tuple[str, ...]:
    """The names in braces, sorted; empty for a text that no braces can be read from."""
    return tuple(sorted({name for name, plain in _fields(text) if plain and name}))


def faults(name: str, text: str) -> Sequence[str]:
    """What is wrong with a course's text, a sentence each; nothing where it can be used."""
    if name not in TEXTS:
        return ["The builder has no text of this name."]
    try:
        fields = list(_fields(text))
    except ValueError:
        return ["A brace stands alone; write `{{` or `}}` to have one read."]
    known = filled_in(TEXTS[name])
    found = [one for one, _ in fields]
    told = [
        f"`{{{one}}}` is nothing that can be filled in here."
        for one, plain in fields
        if not plain or one not in known
    ]
    return told + [f"`{{{one}}}` is missing." for one in known if one not in found]


def _fields(text: str) -> Iterator[tuple[str, bool]]:
    """Each part in braces, and whether it is a plain name. Raises ValueError for a lone brace."""
    for _, name, spec, conversion in Formatter().parse(text):
        if name is not None:
            yield name, name.isidentifier() and not spec and conversion is None
