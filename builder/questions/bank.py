"""The question bank: every item that a course comes to, written and computed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from builder.course import Course, Family, digest, digest_of_key
from builder.decide.doubt import is_sure_enough
from builder.words import ENGLISH, Words

from .families import DRILL_FAMILIES, FAMILIES
from .figures import drawn_from
from .frame import AskedClient, ClientFacts, DrillFacts
from .item import Item
from .page_data import key_data
from .wording import Wording, wording_of
from .written import item_of


def build_bank(
    course: Course,
    words: Words = ENGLISH,
    clients: Mapping[str, AskedClient] = MappingProxyType({}),
    made_up: Sequence[str] = (),
) -> tuple[Item, ...]:
    """Every item, in file order; a family's in the order of its clients.

    `clients` tells by name what there is to ask about each client of the course, and about those whom the
    builder makes up, whose names are `made_up`; without it, families of clients give no item. A client whose
    key is unsure stays out of marked quizzes, unless `near_cut` names the number whose line is nearest. A
    family of an unknown name, table or drill, and a client about whom there is nothing to ask, give no item.
    """
    wording = wording_of(course, words)
    items: list[Item | None] = []
    for question in course.questions.values():
        if not isinstance(question, Family):
            about = clients.get(question.case) if question.case is not None else None
            written = item_of(question, about.judged if about else None)
            items.append(_sealed(written, course, about.facts.read if about else []))
        elif question.drill is not None:
            about_drill = _about_drill(question, question.drill, course, wording)
            items += [_sealed(item, course) for item in about_drill]
        else:
            names = made_up if question.cases == "practice" else cases_of(question, course)
            items += [clients[name].items[question.id] for name in names if name in clients]
    return tuple(item for item in items if item is not None)


def item_about(family: Family, client: AskedClient) -> Item | None:
    """A family's question about one client; None where there is nothing to ask."""
    about, frame = client.facts, FAMILIES.get(family.family)
    if frame is None or ("table" in frame.takes and family.table not in about.course.tables):
        return None
    item = next(frame.items(family, about), None)
    chance = frame.chance(family, about) if item and frame.chance else None
    return item and _sealed(item, about.course, about.read, chance, _is_marked(item, about, chance))


def _about_drill(family: Family, name: str, course: Course, wording: Wording) -> Iterator[Item]:
    drill = course.drills.get(name)
    if drill is not None and family.family in DRILL_FAMILIES:
        yield from DRILL_FAMILIES[family.family].items(family, DrillFacts(course, drill, wording))


def cases_of(family: Family, course: Course) -> Sequence[str]:
    """The names of the clients of the course whom a family asks about."""
    if not isinstance(family.cases, tuple):
        return tuple(course.cases) if family.cases == "all" else ()
    return [name for name in family.cases if name in course.cases]


def _is_marked(item: Item, about: ClientFacts, chance: float | None) -> bool:
    """Whether a key of this chance is sure enough for a marked quiz."""
    if chance is None or is_sure_enough(chance):
        return True
    return item.table is not None and about.weighed.known_near[item.table]


def _sealed(
    item: Item, course: Course, read: object = (), chance: float | None = None, marked: bool = True
) -> Item:
    """The item with the sort of its family, the level of its objective, its weight, its digests and the unit
    that is learnt; `read` are the readings shown with it."""
    family, objective = course.questions.get(item.family or ""), course.objectives.get(item.objective)
    seen = [
        item.kind,
        item.stem,
        [[option.id, option.text] for option in item.options],
        list(item.lefts),
        item.unit,
        key_data(item),
        read,
    ]
    if item.figure is not None:
        seen.append(drawn_from(course, item.figure))
    learnt = item.learnt or f"question:{item.id}"
    return replace(
        item,
        sort=family.family if isinstance(family, Family) else None,
        level=objective.level if objective else None,
        chance=chance,
        marked=marked,
        digest=digest(seen),
        key_digest=digest_of_key(item.kind, _right(item)),
        learnt=learnt,
    )


def _right(item: Item) -> str | tuple[object, ...]:
    """The right answer by what it says: the letter of an option depends on the texts of all."""
    if item.right:
        return item.right
    texts = {option.id: option.text for option in item.options}
    key = [item.key] if isinstance(item.key, str) else item.key
    said = [texts.get(part, part) if isinstance(part, str) else str(part) for part in key]
    if item.kind == "pairs":
        return tuple(sorted(zip(item.lefts, said, strict=True)))
    return tuple(sorted(said) if item.kind == "several" else said)
