"""A walk as its page shows it: what the browser is given, the order of its answers, what opens when."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from typing import Any, get_args

from builder.answers import Answers, addresses
from builder.course import Caution, Course, Level
from builder.decide.harm import Told
from builder.decide.pathway import read_at
from builder.exercises.page_data import walk_data
from builder.exercises.walk import Walk, WalkOption, WalkStep
from builder.words import Words

from .asked import ask_block


def other_steps(walk: Walk) -> list[WalkStep]:
    """The steps that the best path leaves out."""
    return [step for name, step in walk.steps.items() if name not in walk.best_path]


def walk_block(answers: Answers, walk: Walk) -> dict[str, Any]:
    """The walk as the browser reads it. `digest` changes with anything that a stored walk rests on."""
    course = answers.course
    block: dict[str, Any] = {
        **walk_data(walk, course.about.pass_mark),
        "course": course.about.name,
    }
    seen = [
        block,
        *(([step.prompt] + [option.text for option in step.options]) for step in walk.steps.values()),
    ]
    asked = {"ask": ask_block(answers, walk)} if walk.asked else {}
    return {**block, "digest": digest(seen), **asked}


def asked_about(answers: Answers, walk: Walk, step: WalkStep) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What a step that decides asks about: measures in file order, and tables that the walk decides."""
    table, course = step.table, answers.course
    if table is None:
        return (), ()
    decided = frozenset(other.table for other in walk.steps.values() if other.table) - {table}

    def asked() -> tuple[tuple[str, ...], tuple[str, ...]]:
        measures, tables = read_at(course, table, decided)
        return tuple(name for name in course.measures if name in measures), tables

    return answers.rules.once(("asked about", table, decided), asked)


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


def next_client(answers: Answers, exercise: str, case: str) -> str | None:
    """The page of the same exercise for the next client, around to the first; None for a lone client."""
    name = answers.following.get(exercise, {}).get(case, case)
    if name == case:
        return None
    return addresses.walk(answers, name, exercise)


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


def verdict(words: Words, best: bool, harm: Told) -> str:
    """Whether an answer holds, and the harm of acting on it."""
    if best:
        return words.say("Right:")
    if harm == "serious":
        return words.say("Unsafe:")
    if harm == "arguable":
        return words.say("Not right, and may be unsafe:")
    if harm == "minor":
        return words.say("Not right, and could do harm:")
    return words.say("Not right:")
