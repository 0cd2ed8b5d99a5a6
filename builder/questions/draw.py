"""Draws a quiz from the bank by a seed; the browser's `draw.js` draws the same.

A quiz is a list of rows; each row takes a number of questions from one pool. A blueprint's pool holds the
items of one objective. A listed question is a row of its own. A listed family is a row too: one of its
clients' questions is drawn, so that a page never grows with the clients; a blueprint can ask for more.

No two questions are about the same client where that can be avoided: a maximum matching between the places to
be filled and the clients, by augmenting paths (Kuhn 1955, Naval Research Logistics Quarterly 2:83-97; in the
order of the places, clients in an order drawn by chance). Places that are left over take a client again. A
pool that is too small gives what it has.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypedDict

from builder.course import Quiz

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


def quiz_pool(quiz: Quiz, bank: Sequence[Item]) -> tuple[Item, ...]:
    """Every item that some draw of the quiz can hold, client by client, else in the order of the bank: so a
    data file of some of them needs few clients' readings. Unsure keys stay out."""
    _, pools = _rows(quiz)
    items = (item for item in bank if item.marked and _pool_name(quiz, item) in pools)
    return tuple(sorted(items, key=lambda item: item.case or ""))


def draw_quiz(quiz: Quiz, bank: Sequence[Item], seed: int = FIRST_SEED) -> tuple[Item, ...]:
    """The items of one draw, row by row."""
    pool = quiz_pool(quiz, bank)
    return tuple(pool[number] for number in drawn(draw_data(quiz, bank), seed))


def draw_data(quiz: Quiz, bank: Sequence[Item]) -> DrawData:
    rows, pools = _rows(quiz)
    items = quiz_pool(quiz, bank)
    clients: dict[str, int] = {}
    for item in items:
        if item.case is not None:
            clients.setdefault(item.case, len(clients))
    return {
        "rows": rows,
        "pool": [pools[_pool_name(quiz, item)] for item in items],
        "client": [-1 if item.case is None else clients[item.case] for item in items],
    }


def drawn(data: DrawData, seed: int) -> list[int]:
    """The numbers of the items of one draw, row by row. `seed` from 0 to 2^53 - 1, exact in a browser."""
    chance = Pcg32(seed)
    order = chance.shuffled(range(len(data["pool"])))
    places = [pool for pool, count in data["rows"] for _ in range(min(count, data["pool"].count(pool)))]
    by_place = _matched(places, order, data)
    taken = set(by_place.values())
    for place, pool in enumerate(places):
        if place not in by_place:
            spare = next((n for n in order if data["pool"][n] == pool and n not in taken), None)
            if spare is not None:
                by_place[place] = spare
                taken.add(spare)
    return [by_place[place] for place in range(len(places)) if place in by_place]


def _matched(places: Sequence[int], order: Sequence[int], data: DrawData) -> dict[int, int]:
    """Place to item, so that as many places as possible are filled and no client comes twice."""
    holder: dict[int, int] = {}
    """Client (or, for an item about none, a number below 0 of its own) to the place that holds it."""
    item_at: dict[int, int] = {}

    def fill(place: int, tried: set[int]) -> bool:
        for item in order:
            if data["pool"][item] != places[place]:
                continue
            who = data["client"][item] if data["client"][item] >= 0 else ~item
            if who in tried:
                continue
            tried.add(who)
            if who not in holder or fill(holder[who], tried):
                holder[who] = place
                item_at[place] = item
                return True
        return False

    for place in range(len(places)):
        fill(place, set())
    return item_at


def _rows(quiz: Quiz) -> tuple[list[tuple[int, int]], dict[str, int]]:
    """The rows of a quiz, and the number of each pool by its name: an objective, a question or a family."""
    wanted = [(row.objective, row.count) for row in quiz.blueprint] or [(id, 1) for id in quiz.questions]
    pools: dict[str, int] = {}
    for name, _ in wanted:
        pools.setdefault(name, len(pools))
    return [(pools[name], count) for name, count in wanted], pools


def _pool_name(quiz: Quiz, item: Item) -> str:
    return item.objective if quiz.blueprint else item.family or item.id
