"""The order in which measures are asked."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from builder.course import AnyOf, Caution, Course, Is, Measure, Rule, Table
from builder.decide.space import Space
from builder.decide.variable_order import ordered_measures

from .courses import band, course, number, table, yes_no


def order(made: Course, cautions: bool = True) -> tuple[str, ...]:
    return ordered_measures(made, made.tables, made.cautions if cautions else {})


def pair(name: str, one: str, other: str) -> Table:
    return table(
        name, "first", f"{one} {other}", ("both", {one: Is(True), other: Is(True)}, "x"), ("rest", {}, "y")
    )


def together(found: tuple[str, ...], *groups: str) -> bool:
    """Whether each group stands side by side."""
    places = [sorted(found.index(name) for name in group.split()) for group in groups]
    return all(place[-1] - place[0] == len(place) - 1 for place in places)


@pytest.mark.parametrize("pairs", [2, 3, 4])
def test_what_is_told_apart_together_is_asked_together(pairs: int) -> None:
    """Bryant 1986, IEEE Trans Comput C-35:677-691: for a1 b1 + ... + an bn the order a1 b1 ... an bn gives
    2n + 2 nodes, a1 ... an b1 ... bn 2^(n+1)."""
    names = [*(f"a{n}" for n in range(pairs)), *(f"b{n}" for n in range(pairs))]
    tables = [pair(f"t{n}", f"a{n}", f"b{n}") for n in range(pairs)]
    # A table that asks for no pair decides where measures stand at first: all a before all b.
    lists = table("first", "first", " ".join(names), ("rest", {}, "x"))
    made = course(*map(yes_no, names), lists, *tables, pathway=("first", *(one.name for one in tables)))
    found = order(made)
    assert sorted(found) == sorted(names)
    assert together(found, *(f"a{n} b{n}" for n in range(pairs)))
    asked = Caution(
        "k", "K", "refer", tuple({f"a{n}": Is(True), f"b{n}": Is(True)} for n in range(pairs)), ""
    )
    space = Space(replace(made, cautions={"k": asked}))
    assert _nodes(space, space.caution("k")) == 2 * pairs, "and the two results"


def _nodes(space: Space, diagram: int) -> int:
    waiting, seen = [diagram], set()
    while waiting:
        node = waiting.pop()
        if node >= 0 and node not in seen:
            seen.add(node)
            waiting += space.diagrams.kids[node]
    return len(seen)


def test_all_are_there_once_whatever_reads_them_and_only_sound_ones() -> None:
    upside_down = replace(number("z", 0, 9), scale=replace(number("z", 0, 9).scale, step=-1))  # type: ignore[arg-type]
    made = course(
        *map(yes_no, "qabcd"),
        upside_down,
        table("t", "first", "b a z", ("r", {"a": Is(True), "z": band(below=3)}, "x"), ("s", {}, "y")),
        Caution("k", "K", "refer", ({"d": Is(True)},), ""),
    )
    assert order(made) == ("a", "b", "d", "c", "q"), "what rules read, tables, cautions, the rest by name"
    assert order(made, cautions=False) == ("a", "b", "c", "d", "q")


def test_the_order_depends_on_nothing_but_the_course() -> None:
    random = Random(3)
    measures = [number(f"m{n}", 0, 9) for n in range(8)]
    tables = []
    for n in range(5):
        inputs = random.sample([one.name for one in measures], 3)
        rules = [Rule(name, {name: band(below=5)}, "x") for name in inputs]
        tables.append(replace(table(f"t{n}", "first", " ".join(inputs), ("r", {}, "x")), rules=tuple(rules)))
    made = course(*measures, *tables)
    assert order(made) == order(made)
    assert sorted(order(made)) == sorted(one.name for one in measures)


def test_a_table_that_only_another_tables_outcome_decides_draws_nothing_together() -> None:
    made = course(
        *map(yes_no, "ab"),
        pair("t", "a", "b"),
        table("u", "first", "t", ("r", {"t": AnyOf(("x",))}, "p"), ("s", {}, "q")),
    )
    assert order(made) == ("a", "b")


def test_very_many_measures_are_ordered_by_a_stated_amount_of_work() -> None:
    names = [f"m{n:03d}" for n in range(250)]
    tables = [pair(f"t{n:03d}", names[n], names[-1 - n]) for n in range(60)]
    made = course(*map(yes_no, names), *tables)
    assert sorted(order(made)) == names


def test_what_is_moved_makes_the_guess_smaller() -> None:
    """Five measures, three tables; by hand: at first b waits for e over c and d."""
    made = course(
        *map(yes_no, "abcde"),
        table("s", "first", "a b c d e", ("r", {}, "x")),
        pair("t", "b", "e"),
        pair("u", "c", "d"),
    )
    found = order(made)
    assert together(found, "b e", "c d")
    assert found[-1] == "a"


def test_three_that_are_told_apart_together() -> None:
    three: Measure | Table = table(
        "t", "first", "a d g", ("r", {"a": Is(True), "d": Is(True), "g": Is(True)}, "x"), ("s", {}, "y")
    )
    lists = table("first", "first", "a b c d e f g", ("rest", {}, "x"))
    made = course(*map(yes_no, "abcdefg"), lists, three, pair("u", "b", "e"), pair("v", "c", "f"))
    assert together(order(made), "a d g", "b e", "c f")


@pytest.mark.parametrize(
    ("names", "readers", "found"),
    [
        ("abcd", "ac bcd ab bd", "acbd"),
        ("abcdef", "cdef abe bd df", "bdfcea"),
        ("abdef", "aef af be abd", "dbeaf"),
    ],
)
def test_the_order_is_the_same_on_every_machine(names: str, readers: str, found: str) -> None:
    """Worked out apart from the program: each measure in turn to the place where the guess is smallest."""
    tables = [
        table(
            f"t{n}", "first", " ".join(one), ("all", {name: Is(True) for name in one}, "x"), ("rest", {}, "y")
        )
        for n, one in enumerate(readers.split())
    ]
    lists = table("first", "first", " ".join(names), ("rest", {}, "x"))
    pathway = ("first", *(one.name for one in tables))
    made = course(*map(yes_no, names), lists, *tables, pathway=pathway)
    assert "".join(order(made)) == found == worked_out(names, readers.split())


def worked_out(names: str, readers: list[str]) -> str:
    """Between two measures each table waits with what it was asked, or, half as much again, with what it will
    be; a diagram grows 2.5 times with each. The best single move of each measure, until none helps."""

    def guess(order: str) -> float:
        waits = [
            sum(
                min(1.0 * len(set(one) & set(order[:at])), 1.5 * len(set(one) - set(order[:at])))
                for one in readers
            )
            for at in range(1, len(order) + 1)
        ]
        return sum(2.5**wait for wait in waits)

    best = names
    while True:
        before = best
        for name in before:
            rest = best.replace(name, "")
            best = min([best, *(rest[:at] + name + rest[at:] for at in range(len(names)))], key=guess)
        if best == before:
            return best
