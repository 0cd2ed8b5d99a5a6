"""A question cannot be marked.

What: a question of the kind `one` has no key or more than one; `several` has no key, or nothing but keys; two
options read the same; `order` lists a step twice; two pairs share their left-hand or right-hand text; or a
right option says that acting on it would do harm.

Why: learners would be marked wrong for a right answer.

Example:

    kind: one
    options: [{text: On the wall}, {text: On the floor}]         # which one is right?

Cure: give the right option `key: true`, and let texts that must be told apart differ.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.course import Question

from ..scope import Fault, Scope

CODE = "question-broken"


def check(scope: Scope) -> Iterator[Fault]:
    for question in scope.course.questions.values():
        if isinstance(question, Question):
            yield from _question(question)


def _question(question: Question) -> Iterator[Fault]:
    at, subject = question.origin.at, f"question:{question.id}"
    keys = sum(option.key for option in question.options)
    match question.kind:
        case "one" if keys != 1:
            message = f"{question.id} has {keys or 'no'} key{'s' if keys > 1 else ''}, and needs exactly one."
            yield Fault(at("options"), subject, message, "Mark the right option with `key: true`.")
        case "several" if keys == 0:
            message = f"{question.id} has no key."
            yield Fault(at("options"), subject, message, "Mark every right option with `key: true`.")
        case "several" if keys == len(question.options):
            message = f"Every option of {question.id} is a key, so there is nothing to decide."
            yield Fault(at("options"), subject, message, "Add an option that is wrong.")
        case "number" if question.answer is None:
            yield Fault(at(), subject, f"{question.id} has no answer.", "Add `answer` with the right number.")
        case "number" if question.within < 0:
            message = f"`within` of {question.id} is below 0."
            yield Fault(at("within"), subject, message, "Write how far off still holds, or leave it out.")
    for number, option in enumerate(question.options):
        if option.key and (option.means or (option.harm != "none" and question.kind == "one")):
            key = "means" if option.means else "harm"
            message = f"A right option of {question.id} says that acting on it would do harm."
            hint = f"Take `{key}` away, or `key`."
            yield Fault(at("options", number, key), subject, message, hint)
    rights = [*(pair.right for pair in question.pairs), *question.spare]
    lefts = [pair.left for pair in question.pairs]
    for number in _repeated([option.text for option in question.options]):
        message = f"Two options of {question.id} read the same."
        yield Fault(at("options", number, "text"), subject, message, "Change or remove one of them.")
    for number in _repeated(question.items):
        message = f"{question.id} lists the same thing twice."
        yield Fault(at("items", number), subject, message, "Change or remove one of them.")
    for number in _repeated(lefts):
        message = f"Two pairs of {question.id} have the same left side."
        yield Fault(at("pairs", number, "left"), subject, message, "Change or remove one of them.")
    for number in _repeated(rights):
        place = at("pairs", number, "right") if number < len(lefts) else at("spare", number - len(lefts))
        message = f"Two right sides of {question.id} read the same."
        yield Fault(place, subject, message, "Change or remove one of them.")


def _repeated(texts: Sequence[str]) -> Iterator[int]:
    """The places of texts that stood before."""
    folded = [" ".join(text.split()).casefold() for text in texts]
    return (number for number, text in enumerate(folded) if text in folded[:number])
