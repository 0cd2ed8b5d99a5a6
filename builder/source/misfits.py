"""Where a value does not meet its schema: which faults there are, and the place and the words of each."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from jsonschema import ValidationError

from builder.course import Path
from builder.problems.nearest import nearest_word

from .phrases import PHRASES, Phrase, example_of, filling
from .refusal import Refusal
from .validators import shell_validator, validator
from .wanted import shown
from .yaml_tree import Node


@dataclass(frozen=True, slots=True)
class Misfit:
    """One fault of form. `at_key` places it at the key itself, not at what the key holds."""

    path: Path
    message: str
    hint: str = ""
    at_key: bool = False


def misfits(unit: Node, part: str) -> list[Misfit]:
    """Every fault of a value against one part of the schemas."""
    return _told(validator(part).iter_errors(unit))


def shell_misfits(value: Node, file: str) -> list[Misfit]:
    """What is wrong with a file around its units."""
    return _told(shell_validator(file).iter_errors(value))


def _told(errors: Iterable[ValidationError]) -> list[Misfit]:
    refusals = [refusal for error in errors for refusal in _refusals(error)]
    meant = {
        (refusal.path, near)
        for refusal in refusals
        if refusal.keyword == "additionalProperties"
        for key in refusal.extra_keys
        if (near := _meant(key, refusal))
    }
    told: dict[Misfit, None] = {}
    mistyped: set[Path] = set()
    for refusal in refusals:
        is_misspelt = refusal.keyword == "required" and (refusal.path, refusal.missing) in meant
        if is_misspelt or refusal.path in mistyped:
            continue
        if refusal.keyword == "type":
            mistyped.add(refusal.path)
        told.update((misfit, None) for misfit in _misfits(refusal))
    return list(told)


def _refusals(error: ValidationError) -> Iterable[Refusal]:
    """The refusal, or those inside it where there is but one alternative."""
    if error.validator == "anyOf" and error.context and len(error.schema["anyOf"]) == 1:  # type: ignore[index]
        return [refusal for inner in error.context for refusal in _refusals(inner)]
    return [Refusal.of(error)]


def _misfits(refusal: Refusal) -> Iterable[Misfit]:
    path, keyword = refusal.path, refusal.keyword
    if keyword == "additionalProperties":
        return [_extra(key, refusal) for key in refusal.extra_keys]
    if keyword == "required":
        key = refusal.missing
        return [Misfit(path, f"This {refusal.title} has no `{key}`.", example_of(key, refusal))]
    if keyword == "anyOf":
        keys = [f"`{alternative['required'][0]}`" for alternative in refusal.wanted]
        wanted = f"{', '.join(keys[:-1])} nor {keys[-1]}"
        return [Misfit(path, f"This {refusal.title} has neither {wanted}.", refusal.description)]
    if refusal.is_name:
        return [Misfit((*path, refusal.value), *_phrase(f"`{shown(refusal.value)}`", refusal), at_key=True)]
    subject = _subject(refusal)
    if refusal.value is None or refusal.value == "":
        return [Misfit(path, f"{subject} is empty.", filling(refusal))]
    if keyword == "uniqueItems":
        path = (*path, refusal.repeated)
    return [Misfit(path, *_phrase(subject, refusal))]


def _phrase(subject: str, refusal: Refusal) -> Phrase:
    if refusal.keyword in PHRASES:
        return PHRASES[refusal.keyword](subject, refusal)
    return f"{subject} does not fit here.", refusal.description


def _subject(refusal: Refusal) -> str:
    """What the sentence is about: a key, an entry of a list, or the whole part."""
    last = refusal.path[-1] if refusal.path else None
    if isinstance(last, str):
        return f"`{shown(last)}`"
    if isinstance(last, int):
        return f"Entry {last + 1} of {f'`{shown(refusal.key)}`' if refusal.key else 'this list'}"
    return f"This {refusal.title}"


def _meant(key: str, refusal: Refusal) -> str | None:
    """The key that was surely meant, where it is not there already."""
    return nearest_word(key, [known for known in refusal.known if known not in refusal.value])


def _extra(key: str, refusal: Refusal) -> Misfit:
    meant = _meant(key, refusal)
    if meant:
        hint = f"Did you mean `{meant}`?"
    elif len(refusal.known) > 20:
        hint = "Delete it, or look for its proper name in the field reference."
    else:
        hint = f"Its keys are {', '.join(f'`{name}`' for name in refusal.known)}."
    return Misfit((*refusal.path, key), f"`{shown(key)}` is no key of {refusal.a_title}.", hint, at_key=True)
