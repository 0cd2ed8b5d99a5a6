"""Draws a quiz from the bank by a seed; the browser's `draw.js` draws the same.

A quiz is a list of rows; each row takes a number of questions from one pool. A blueprint's pool holds the
items that fit its row and no earlier one. A listed question is a row of its own. A listed family is a row
too: one of its clients' questions is drawn, so that a page never grows with the clients; a blueprint can ask
for more.

Of each group that never comes together one question or family is left first, the one that comes first in an
order drawn by chance. What a quiz must include is chosen next, so that every draw holds it wherever any draw
can: a flow from what is asked for over the items that serve to the pools with their counts, made as large as
can be by augmenting paths (Ford and Fulkerson 1956, Canadian Journal of Mathematics 8:399-404).

No two questions are about the same client where that can be avoided: a maximum matching between the places to
be filled and the clients, by augmenting paths (Kuhn 1955, Naval Research Logistics Quarterly 2:83-97; in the
order of the places, clients in an order drawn by chance). Places that are left over take a client again. A
pool that is too small gives what it has.
"""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Callable, Mapping, Sequence
from typing import TypedDict

from builder.course import MustInclude, Quiz

from .item import Item
from .pcg import Pcg32

FIRST_SEED = 1
"""The draw that stands on the page."""


class DrawData(TypedDict):
    """What the browser needs to draw: whole numbers alone. Items count from 0 in the order of `quiz_pool`."""

    rows: list[tuple[int, int]]
    """(pool, count)."""
    pool: list[int]
    """The pool of every item."""
    client: list[int]
    """The client of every item, -1 where it is about none."""
    must: list[tuple[int, list[int]]]
    """(count, the items that serve) of all that every draw holds, each filled with items of its own."""
    never: list[list[list[int]]]
    """Groups that never come together: for each question or family of a group, its items."""


def quiz_pool(quiz: Quiz, bank: Sequence[Item]) -> tuple[Item, ...]:
    """Every item that some draw of the quiz can hold, client by client, else in the order of the bank: so a
    data file of some of them needs few clients' readings. Unsure keys stay out."""
    row_of = _rows(quiz)
    items = (item for item in bank if item.marked and row_of(item) is not None)
    return tuple(sorted(items, key=lambda item: item.case or ""))


def draw_quiz(quiz: Quiz, bank: Sequence[Item], seed: int = FIRST_SEED) -> tuple[Item, ...]:
    """The items of one draw, row by row. `bank` may hold no more than the quiz's own pool."""
    pool = quiz_pool(quiz, bank)
    return tuple(pool[number] for number in drawn(draw_data(quiz, bank), seed))


def draw_data(quiz: Quiz, bank: Sequence[Item]) -> DrawData:
    items, row_of = quiz_pool(quiz, bank), _rows(quiz)
    counts = [row.count for row in quiz.blueprint] or [1] * len(quiz.questions)
    clients: dict[str, int] = {}
    for item in items:
        if item.case is not None:
            clients.setdefault(item.case, len(clients))
    return {
        "rows": list(enumerate(counts)),
        "pool": [row for item in items if (row := row_of(item)) is not None],
        "client": [-1 if item.case is None else clients[item.case] for item in items],
        "must": [
            (one.count, [n for n, item in enumerate(items) if _serves(one, item)])
            for one in quiz.must_include
        ],
        "never": [
            [[n for n, item in enumerate(items) if (item.family or item.id) == name] for name in group]
            for group in quiz.never_with
        ],
    }


def drawn(data: DrawData, seed: int) -> list[int]:
    """The numbers of the items of one draw, row by row. `seed` from 0 to 2^53 - 1, exact in a browser."""
    order = Pcg32(seed).shuffled(range(len(data["pool"])))
    data = apart(data, order)
    places = [pool for pool, count in data["rows"] for _ in range(min(count, data["pool"].count(pool)))]
    by_place: dict[int, int] = {}
    for item in included(data, order):
        by_place[
            next(n for n, pool in enumerate(places) if pool == data["pool"][item] and n not in by_place)
        ] = item
    _match(places, order, data, by_place)
    taken = set(by_place.values())
    for place, pool in enumerate(places):
        if place not in by_place:
            spare = next((n for n in order if data["pool"][n] == pool and n not in taken), None)
            if spare is not None:
                by_place[place] = spare
                taken.add(spare)
    if data["must"]:
        by_place = _mixed(places, order, by_place)
    return [by_place[place] for place in range(len(places)) if place in by_place]


def apart(data: DrawData, order: Sequence[int]) -> DrawData:
    """What is left of each group that never comes together: the items of the question or family that comes
    first in `order`. The others are in no pool any more."""
    pool = list(data["pool"])
    for group in data["never"]:
        home = {item: number for number, items in enumerate(group) for item in items}
        stays = next((home[item] for item in order if item in home and pool[item] >= 0), -1)
        for item, number in home.items():
            if number != stays:
                pool[item] = -1
    return {**data, "pool": pool}


def included(data: DrawData, order: Sequence[int]) -> list[int]:
    """The items that must be there, in `order`; fewer than asked for where no draw can hold as many."""
    room = Counter[int]()
    for pool, count in data["rows"]:
        room[pool] += count
    holder: dict[int, int] = {}
    """Item to the slot that it fills. The slots of one demand follow each other."""
    serving: list[frozenset[int]] = []
    """The items that each slot can have."""

    def in_pool(pool: int) -> list[int]:
        return [item for item in holder if data["pool"][item] == pool]

    def is_free(item: int) -> bool:
        return item not in holder and len(in_pool(data["pool"][item])) < room[data["pool"][item]]

    def fill(slot: int) -> bool:
        """Fills a slot, and moves others for it along the shortest way there is."""
        taker: dict[int, int] = {}
        """Item to the slot that would have it."""
        opens = {slot: -1}
        """A slot that would move to the item that this opens for another."""
        waiting = deque([slot])
        while waiting:
            one = waiting.popleft()
            for item in order:
                if item not in serving[one] or item in taker:
                    continue
                taker[item] = one
                if is_free(item):
                    settle(item, taker, opens)
                    return True
                for other in [item] if item in holder else in_pool(data["pool"][item]):
                    if holder[other] not in opens:
                        opens[holder[other]] = item
                        waiting.append(holder[other])
        return False

    def settle(item: int, taker: Mapping[int, int], opens: Mapping[int, int]) -> None:
        while item >= 0:
            one = taker[item]
            left = next((other for other, slot in holder.items() if slot == one), None)
            holder[item] = one
            if left is not None:
                del holder[left]
            item = opens[one]

    for count, items in data["must"]:
        for _ in range(count):
            serving.append(frozenset(items))
            taken = {_who(data, item) for item in holder}
            apart = (n for n in order if n in serving[-1] and _who(data, n) not in taken and is_free(n))
            first = next(apart, None)
            if first is not None:
                holder[first] = len(serving) - 1
            elif not fill(len(serving) - 1):
                break
    return [item for item in order if item in holder]


def _mixed(places: Sequence[int], order: Sequence[int], by_place: Mapping[int, int]) -> dict[int, int]:
    """The items of each pool in the order drawn, so that no place tells what had to be there."""
    mixed: dict[int, int] = {}
    for pool in set(places):
        there = [place for place, one in enumerate(places) if one == pool and place in by_place]
        items = sorted((by_place[place] for place in there), key=order.index)
        mixed |= dict(zip(there, items, strict=True))
    return mixed


def _who(data: DrawData, item: int) -> int:
    """The client of an item, or a number below 0 of its own."""
    return data["client"][item] if data["client"][item] >= 0 else ~item


def _match(places: Sequence[int], order: Sequence[int], data: DrawData, item_at: dict[int, int]) -> None:
    """Fills as many of the free places as can be so that no client comes twice; what is there stays."""
    fixed = {_who(data, item) for item in item_at.values()}
    holder: dict[int, int] = {}
    """Client (or, for an item about none, a number of its own) to the place that holds it."""

    def fill(place: int, tried: set[int]) -> bool:
        for item in order:
            if data["pool"][item] != places[place]:
                continue
            who = _who(data, item)
            if who in tried or who in fixed:
                continue
            tried.add(who)
            if who not in holder or fill(holder[who], tried):
                holder[who] = place
                item_at[place] = item
                return True
        return False

    for place in range(len(places)):
        if place not in item_at:
            fill(place, set())


def _serves(must: MustInclude, item: Item) -> bool:
    return item.objective == must.objective if must.objective is not None else item.sends == must.clients


def _rows(quiz: Quiz) -> Callable[[Item], int | None]:
    """What tells the row whose question an item can be: of a blueprint, the first that it fits; None without
    one. Of thousands of items most are alike in this."""
    numbers = {name: number for number, name in reversed(list(enumerate(quiz.questions)))}
    fits: dict[tuple[str | None, ...], int | None] = {}

    def row_of(item: Item) -> int | None:
        if not quiz.blueprint:
            return numbers.get(item.family or item.id)
        traits = (item.objective, item.level, item.kind, item.sort)
        if traits not in fits:
            fits[traits] = first_fit(quiz, traits)
        return fits[traits]

    return row_of


def first_fit(quiz: Quiz, traits: tuple[str | None, ...]) -> int | None:
    """The first row of a blueprint that fits an objective, a level, a kind of question and a sort of
    family."""
    fits = (
        number
        for number, row in enumerate(quiz.blueprint)
        if all(asked in (None, has) for asked, has in zip(row.asks, traits, strict=True))
    )
    return next(fits, None)
