"""The question bank: every item that a course comes to, written and computed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from builder.course import Case, Course, Family, Reading, digest
from builder.decide.doubt import is_sure_enough
from builder.words import ENGLISH, Words

from .families import DRILL_FAMILIES, FAMILIES, AskedClient, ClientFacts
from .item import Item
from .page_data import key_data
from .written import item_of


def build_bank(
    course: Course, words: Words = ENGLISH, clients: Mapping[str, AskedClient] | None = None
) -> tuple[Item, ...]:
    """Every item, in file order; a family's in the order of its clients.

    `clients` tells by name what is decided about each client of the course, and how sure it is; without it,
    families of clients give no item. A client whose key is unsure stays out of marked quizzes, unless
    `near_cut` names the number whose line is nearest. A family of an unknown name, table or drill, and a
    client about whom there is nothing to ask, give no item.
    """
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
            if clients is None or case.name not in clients:
                continue
            client = clients[case.name]
            facts = ClientFacts(course, case, client.found, client.found_again, client.explained, words)
            item = FAMILIES[question.family](question, facts)
            if item is not None:
                items.append(_sealed(_weighed(item, client), case))
    return tuple(items)


def _about_drill(family: Family, course: Course, words: Words) -> Iterator[Item]:
    drill = course.drills.get(family.drill or "")
    if drill is not None and family.family in DRILL_FAMILIES:
        yield from DRILL_FAMILIES[family.family](family, course, drill, words)


def cases_of(family: Family, course: Course) -> Sequence[Case]:
    """The clients that a family asks about."""
    names = course.cases if family.cases == "all" else family.cases
    return [course.cases[name] for name in names if name in course.cases]


def _weighed(item: Item, client: AskedClient) -> Item:
    """The item with the chance of its key, and whether that is enough for a marked quiz."""
    chance = None if item.table is None else client.chance_of_key(item.table)
    if item.table is None or chance is None:
        return item
    return replace(item, chance=chance, marked=is_sure_enough(chance) or client.known_near[item.table])


def _sealed(item: Item, case: Case | None) -> Item:
    """The item with its digests."""
    seen = [
        item.kind,
        item.stem,
        [[option.id, option.text] for option in item.options],
        list(item.lefts),
        item.unit,
        key_data(item),
        [[name, _reading(reading)] for name, reading in sorted(case.readings.items())] if case else [],
    ]
    return replace(item, digest=digest(seen), key_digest=digest([item.kind, _right(item)], 8))


def _right(item: Item) -> object:
    """The right answer by what it says: the letter of an option depends on the texts of all."""
    if item.right:
        return item.right
    texts = {option.id: option.text for option in item.options}
    key = [item.key] if isinstance(item.key, str) else item.key
    said = [texts.get(part, part) if isinstance(part, str) else str(part) for part in key]
    if item.kind == "pairs":
        return sorted(zip(item.lefts, said, strict=True))
    return sorted(said) if item.kind == "several" else said


def _reading(reading: Reading) -> object:
    return [str(trial) for trial in reading.trials] or reading.finding
