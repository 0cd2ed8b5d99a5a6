"""The sentence and the hint for each keyword of a schema."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

from builder.problems.nearest import nearest_word

from .refusal import Refusal
from .wanted import boolean_hint, number_hint, shown, text_hint

Phrase = tuple[str, str]
"""Sentence and hint."""


def example_of(key: str, refusal: Refusal) -> str:
    """How a missing key may look."""
    about = refusal.known.get(key, {})
    examples = about.get("examples", [])
    if examples and isinstance(examples[0], str | int | float):
        return f"Write, for example, `{key}: {shown(examples[0])}`."
    description = about.get("description", "")
    return f"`{key}`: {description}" if description else refusal.description


def filling(refusal: Refusal) -> str:
    """What to do about something empty."""
    examples = refusal.schema.get("examples", [])
    if examples and isinstance(examples[0], str | int | float):
        return f"Write, for example, `{shown(examples[0])}`, or delete the line."
    return refusal.description or "Write something, or delete the line."


def _such_as(refusal: Refusal) -> str:
    """What it is for, and what may stand there instead by the schema's example."""
    return " ".join(filter(None, (refusal.description, _for_example(refusal))))


def _for_example(refusal: Refusal) -> str:
    """Numbers alone; empty where the schema's example is something else."""
    for example in refusal.schema.get("examples", [])[:1]:
        if isinstance(example, int | float):
            return f"Write, for example, {shown(example)}."
        if isinstance(example, list) and all(isinstance(one, int | float) for one in example):
            return f"Write, for example, `[{', '.join(map(shown, example))}]`."
    return ""


_TYPES = {
    "string": "text",
    "number": "a number",
    "integer": "a whole number",
    "boolean": "true or false",
    "array": "a list",
    "object": "keys of its own",
    "null": "nothing",
}


def _type(subject: str, refusal: Refusal) -> Phrase:
    value = refusal.value
    types = refusal.wanted if isinstance(refusal.wanted, list) else [refusal.wanted]
    names = [_TYPES[name] for name in types]
    wanted = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"
    message = f"{subject} wants {wanted}, and {_found(value)}."
    if isinstance(value, str) and ("number" in types or "integer" in types):
        return message, number_hint(value, whole="number" not in types)
    if isinstance(value, str) and "boolean" in types:
        return message, boolean_hint(value)
    if isinstance(value, str | int | Decimal) and types == ["array"] and _for_example(refusal):
        return message, _for_example(refusal)
    if isinstance(value, str) and types == ["array"]:
        return message, f"Write it in square brackets: `[{shown(value)}]`."
    if isinstance(value, int | Decimal) and "at_least" in refusal.known:
        return (
            message,
            f"A number is compared with a bound: `{{at_least: {value}}}`, or `above`, `at_most`, `below`.",
        )
    if isinstance(value, list | dict) and len(types) > 1:
        return message, refusal.description
    if isinstance(value, dict) and types == ["array"]:
        return message, "Start each entry with `- `."
    if types == ["string"] and not (isinstance(value, list | dict) and "pattern" in refusal.schema):
        return message, text_hint(value)
    if types == ["object"]:
        return message, _keys_hint(refusal)
    if types == ["integer"] and isinstance(value, Decimal):
        return message, "Write a whole number."
    return message, refusal.description


def _keys_hint(refusal: Refusal) -> str:
    known = refusal.known
    if "date-parts" in known:
        return "Write, for example, `{date-parts: [[2016, 5]]}`."
    return f"Its keys are {', '.join(f'`{key}`' for key in known)}." if known else refusal.description


def _found(value: object) -> str:
    if isinstance(value, str):
        return f"`{shown(value)}` is text"
    if isinstance(value, bool):
        return f"`{shown(value)}` means yes or no"
    if isinstance(value, int | Decimal):
        return f"`{value}` is a number"
    return "a list stands there" if isinstance(value, list) else "keys stand there"


def _enum(subject: str, refusal: Refusal) -> Phrase:
    choices: list[str] = refusal.wanted
    value = refusal.value
    listed = ", ".join(f"`{choice}`" for choice in choices)
    if not isinstance(value, str):
        return f"{subject} wants one of {listed}, and {_found(value)}.", "Write one of them."
    near = nearest_word(value, choices)
    hint = f"Did you mean `{near}`?" if near else f"Choose one of {listed}."
    return f"`{shown(value)}` is no {refusal.title}.", hint


_WORDS = re.compile(r"\^\(?([a-z_|]+)\)?\$")
"""A pattern that only lists words."""
_NAME_RULE = "A name starts with a letter a to z and holds only letters, digits, `-` and `_`."


def _pattern(subject: str, refusal: Refusal) -> Phrase:
    value = shown(refusal.value)
    pattern: str = refusal.wanted
    if pattern == "^[0-9]{4}-[0-9]{2}-[0-9]{2}$":
        return f"{subject} wants a date, and `{value}` is not written as one.", (
            "Write year, month and day: 2026-06-01."
        )
    if words := _WORDS.fullmatch(pattern):
        near = nearest_word(refusal.value, words[1].split("|"))
        hint = f"Did you mean `{near}`?" if near else refusal.description
        return f"{subject} cannot be `{value}`.", hint
    if "A-Za-z0-9_-" in pattern:
        if refusal.value == "index":
            return "The name `index` is taken by the page that lists them all.", "Choose another name."
        if "number" in refusal.schema.get("type", ()) and re.match(r"[-+−]?[.,]?[0-9]", refusal.value):
            return f"{subject} cannot be `{value}`: it is no plain number, and no name.", (
                number_hint(refusal.value)
            )
        return f"`{value}` cannot be a name.", _NAME_RULE + _slug(refusal.value)
    return f"{subject} cannot be `{value}`.", refusal.description


def _slug(text: str) -> str:
    slug = re.sub(r"[^A-Za-z0-9_-]+", "-", text).strip("-_").lstrip("0123456789-_")
    return f" Write, for example, `{slug[:60]}`." if slug else ""


def _minimum(subject: str, refusal: Refusal) -> Phrase:
    return f"{subject} must be {refusal.wanted} or more, and {refusal.value} is less.", _such_as(refusal)


def _exclusive_minimum(subject: str, refusal: Refusal) -> Phrase:
    return f"{subject} must be more than {refusal.wanted}, and {refusal.value} is not.", _such_as(refusal)


def _maximum(subject: str, refusal: Refusal) -> Phrase:
    value = refusal.value
    hint = f"Write {Decimal(value) / 100} for {value} of 100." if refusal.wanted == 1 and value <= 100 else ""
    return f"{subject} must be {refusal.wanted} or less, and {value} is more.", hint or _such_as(refusal)


def _max_length(subject: str, refusal: Refusal) -> Phrase:
    return f"{subject} is longer than {refusal.wanted} letters.", "Shorten it."


def _min_size(subject: str, refusal: Refusal) -> Phrase:
    size, least = len(refusal.value), refusal.wanted
    if size == 0:
        return f"{subject} is empty.", refusal.description
    return f"{subject} needs at least {least} entries, and has {size}.", _such_as(refusal)


def _max_size(subject: str, refusal: Refusal) -> Phrase:
    return f"{subject} takes at most {refusal.wanted} entries, and has {len(refusal.value)}.", (
        refusal.description
    )


def _unique(subject: str, refusal: Refusal) -> Phrase:
    return f"{subject} says `{shown(refusal.value[refusal.repeated])}` twice.", "Keep one of the two."


PHRASES: dict[str, Callable[[str, Refusal], Phrase]] = {
    "type": _type,
    "enum": _enum,
    "pattern": _pattern,
    "minimum": _minimum,
    "exclusiveMinimum": _exclusive_minimum,
    "maximum": _maximum,
    "maxLength": _max_length,
    "minItems": _min_size,
    "minProperties": _min_size,
    "maxItems": _max_size,
    "maxProperties": _max_size,
    "uniqueItems": _unique,
}
"""Schema keyword to its sentence and hint, given what the sentence is about."""
