"""The question bank: every item that a course comes to, written and computed."""

from __future__ import annotations

import hashlib
import json
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from builder.course import Case, Course, Family, Reading
from builder.decide.doubt import SURE_ENOUGH, Chance, is_known_near
from builder.decide.explain import Explanation, explain
from builder.decide.space import Space
from builder.words import ENGLISH, Words

from .families import DRILL_FAMILIES, FAMILIES, ClientFacts
from .item import Item
from .page_data import key_data
from .written import item_of

Chances = Mapping[str, Mapping[str, float]]
"""Case to table to the chance of its key given measurement error."""
Explained = Callable[[Case], Iterable[Explanation]]
"""Every decision for a client, in pathway order."""


def build_bank(
    course: Course,
    words: Words = ENGLISH,
    chances: Chances | None = None,
    space: Space | None = None,
    explained: Explained | None = None,
) -> tuple[Item, ...]:
    """Every item, in file order; a family's in the order of its clients.

    `chances` tells how sure keys are; what it leaves out is not computed, and such an item is marked. `space`
    is that of the course, and `explained` tells a client's decisions, where they are at hand. An unsure
    client stays out of marked quizzes, unless `near_cut` names the number whose line is nearest. A family of
    an unknown name, table or drill, and a client about whom there is nothing to ask, give no item.
    """
    space = space or Space(course)
    about: dict[str, ClientFacts] = {}
    items: list[Item] = []
    for question in course.questions.values():
        if not isinstance(question, Family):
            items.append(_sealed(item_of(question), None))
            continue
        if question.drill is not None:
            items += [_sealed(item, None) for item in _about_drill(question, course, words)]
            continue
        if question.family not in FAMILIES or question.table not in course.tables:
            continue
        for case in cases_of(question, course):
            if case.name not in about:
                why = explained(case) if explained else explain(course, case.readings)
                about[case.name] = ClientFacts(course, case, {one.decision.table: one for one in why}, words)
            item = FAMILIES[question.family](question, about[case.name])
            if item is not None:
                items.append(_sealed(_weighed(item, space, case, chances or {}), case))
    return tuple(items)


def key_chances(
    space: Space, key: Callable[[Case, str], str | None], chance: Callable[[Case, str], Chance]
) -> Chances:
    """How sure every key is that a family asks for, from a client's `key` in a table and the `chance` of its
    outcomes."""
    found: dict[str, dict[str, float]] = defaultdict(dict)
    families = [one for one in space.course.questions.values() if isinstance(one, Family)]
    for family in families:
        if family.table not in space.tables:
            continue
        for case in cases_of(family, space.course):
            if family.table not in found[case.name]:
                outcome = key(case, family.table)
                if outcome is not None:
                    found[case.name][family.table] = chance(case, family.table).chance.get(outcome, 0.0)
    return found


def _about_drill(family: Family, course: Course, words: Words) -> Iterator[Item]:
    drill = course.drills.get(family.drill or "")
    if drill is not None and family.family in DRILL_FAMILIES:
        yield from DRILL_FAMILIES[family.family](family, course, drill, words)


def cases_of(family: Family, course: Course) -> Sequence[Case]:
    """The clients that a family asks about."""
    names = course.cases if family.cases == "all" else family.cases
    return [course.cases[name] for name in names if name in course.cases]


def _weighed(item: Item, space: Space, case: Case, chances: Chances) -> Item:
    """The item with the chance of its key, and whether that is enough for a marked quiz."""
    chance = chances.get(case.name, {}).get(item.table or "")
    if item.table is None or chance is None:
        return item
    marked = chance >= SURE_ENOUGH or is_known_near(space, case, item.table)
    return replace(item, chance=chance, marked=marked)


def _sealed(item: Item, case: Case | None) -> Item:
    """The item with its digest."""
    seen = [
        item.kind,
        item.stem,
        [[option.id, option.text] for option in item.options],
        list(item.lefts),
        item.unit,
        key_data(item),
        [[name, _reading(reading)] for name, reading in sorted(case.readings.items())] if case else [],
    ]
    text = json.dumps(seen, ensure_ascii=False, separators=(",", ":"))
    return replace(item, digest=hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:16])


def _reading(reading: Reading) -> object:
    return [str(trial) for trial in reading.trials] or reading.finding
