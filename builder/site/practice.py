"""What the templates of walks and questions ask for beside the model."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, get_args

from builder.course import Caution, Course, Harm, Level
from builder.exercises.page_data import walk_data
from builder.exercises.walk import Walk, WalkOption, WalkStep
from builder.questions.item import Item
from builder.words import Words
from builder.words.numbers import quantity

from . import uris
from .browser_words import browser_words
from .prose import plain

if TYPE_CHECKING:
    from .site import Site

__all__ = [
    "browser_words",
    "gravest_first",
    "keys",
    "next_client",
    "opened",
    "opening",
    "other_steps",
    "plain",
    "shown",
    "stem",
    "texts",
    "unit",
    "verdict",
    "walk_block",
]


@dataclass(frozen=True, slots=True)
class Stem:
    """What is asked, and what is told before it."""

    before: str
    ask: str


_FENCE = re.compile(r"(?m)^\s*(```|~~~)")
_BLOCK = re.compile(r"\s*([-+*>#|]|\d+[.)]|```|~~~| {4})")


def _blocks(text: str) -> list[str]:
    """What blank lines set apart."""
    return [block for block in re.split(r"\n[ \t]*\n", text.strip()) if block.strip()]


def stem(text: str) -> Stem:
    """Splits a question's text: its last paragraph is what is asked; a list, table or code is not."""
    blocks = _blocks(text)
    if len(blocks) < 2 or _BLOCK.match(blocks[-1]):
        return Stem("", text) if len(blocks) < 2 else Stem("\n\n".join(blocks[1:]), blocks[0])
    return Stem("\n\n".join(blocks[:-1]), blocks[-1])


@dataclass(frozen=True, slots=True)
class Lead:
    first: str
    rest: str
    """Empty where the whole is short."""


_OPENING = 2
"""Blocks that are told at once: what you see, what to do."""


def opening(text: str) -> Lead:
    """A long text cut after its second block, so that nothing stands between what to do now and what comes
    next. It is cut only before a plain paragraph, which no list, table or code can run on into."""
    blocks = _blocks(text)
    for at in range(_OPENING, len(blocks) - 1):
        if not (_BLOCK.match(blocks[at]) or blocks[at][0].isspace()) and not _FENCE.search(text):
            return Lead("\n\n".join(blocks[:at]), "\n\n".join(blocks[at:]))
    return Lead(text, "")


def other_steps(walk: Walk) -> list[WalkStep]:
    """The steps that the best path leaves out."""
    return [step for name, step in walk.steps.items() if name not in walk.best_path]


def walk_block(site: Site, walk: Walk) -> dict[str, Any]:
    """The walk as the browser reads it. `digest` changes with anything that a stored walk rests on."""
    block: dict[str, Any] = {
        **walk_data(walk, site.course.about.pass_mark),
        "course": site.course.about.name,
    }
    seen = [
        block,
        *(([step.prompt] + [option.text for option in step.options]) for step in walk.steps.values()),
    ]
    return {**block, "digest": digest(seen)}


def digest(value: object) -> str:
    """Twelve hexadecimal digits of a JSON value."""
    text = json.dumps(value, ensure_ascii=False, sort_keys=True)
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:12]


def shown(walk: Walk, step: WalkStep) -> list[WalkOption]:
    """A step's answers in the order shown: outcomes as their table names them, authored answers shuffled, so
    that a best answer written first does not stand first."""
    if step.kind == "decide":
        return list(step.options)
    return sorted(step.options, key=lambda option: digest([walk.exercise, step.id, option.text]))


def next_client(site: Site, exercise: str, case: str) -> str | None:
    """The page of the same exercise for the next client, around to the first; None for a lone client."""
    name = site.following.get(exercise, {}).get(case, case)
    if name == case:
        return None
    first = site.exercises_of(name)[0] == exercise
    return uris.client(name, None if first else exercise)


_LEVELS = get_args(Level)


def gravest_first(course: Course, names: Iterable[str]) -> list[Caution]:
    """The cautions of these names, the most urgent first, else in the order given."""
    there = [course.cautions[name] for name in names if name in course.cautions]
    return sorted(there, key=lambda caution: _LEVELS.index(caution.level))


def opened(course: Course, step: WalkStep) -> list[tuple[Caution, str]]:
    """The cautions of a step, each once, the gravest first; with the ids of the answers that open it, or with
    nothing where every answer does."""
    by: dict[str, list[str]] = {name: [] for name in step.cautions}
    for option in step.options:
        for name in option.cautions:
            if name not in step.cautions:
                by.setdefault(name, []).append(option.id)
    return [(caution, " ".join(by[caution.name])) for caution in gravest_first(course, by)]


def verdict(words: Words, best: bool, harm: Harm) -> str:
    """Whether an answer holds, and the harm that it could do."""
    if best:
        return words.say("Holds:")
    if harm == "serious":
        return words.say("Does not hold, and could do serious harm:")
    if harm == "minor":
        return words.say("Does not hold, and could do harm:")
    return words.say("Does not hold:")


def texts(item: Item) -> dict[str, str]:
    """The text of each option by its id."""
    return {option.id: option.text for option in item.options}


def keys(item: Item) -> tuple[str, ...]:
    """The ids of the options that hold, for `one` and `several`."""
    return (item.key,) if isinstance(item.key, str) else tuple(str(part) for part in item.key)


def unit(name: str) -> str:
    """A unit as people write it after a number: `°`, `cm`."""
    return quantity(0, name).removeprefix("0").strip()
