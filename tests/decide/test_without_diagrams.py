"""Where a table's diagram over all clients would grow too large, all is answered without it, the same."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from random import Random

import pytest

from builder.course import Reading
from builder.decide.budget import Unfinished
from builder.decide.doubt import chances
from builder.decide.found import find
from builder.decide.near_lines import near_lines
from builder.decide.nearest import nearest
from builder.decide.proofs import Finding, prove
from builder.decide.space import Space

from .courses import band, course, number, table
from .referee import everyone, for_random_seeds, random_course
from .test_nearest import as_readings


class Cramped(Space):
    """Never has room for the diagram of a table over all clients."""

    def _outcome(self, table: str, made: Mapping[str, int | None], steps: int) -> int:
        raise Unfinished


def said(findings: tuple[Finding, ...]) -> list[Finding]:
    return [replace(finding, client=None, region=None) for finding in findings]


@for_random_seeds(150)
def test_nothing_changes(seed: int) -> None:
    random = Random(seed)
    made = random_course(random, aged=seed % 4 == 0)
    roomy, cramped = Space(made), Cramped(made)
    assert said(prove(roomy)) == said(prove(cramped))
    found = find(made, as_readings(made, random.choice(list(everyone(made)))))
    ours, theirs = chances(roomy, found), chances(cramped, found)
    for name in made.tables:
        assert ours[name].chance == pytest.approx(theirs[name].chance)
        assert ours[name].undecided == pytest.approx(theirs[name].undecided)
        assert nearest(roomy, found, name) == nearest(cramped, found, name)
        assert near_lines(roomy, found, name) == near_lines(cramped, found, name)


def test_a_long_chain_of_tables_is_followed_to_its_end() -> None:
    first = table("t0000", "first", "a", ("low", {"a": band(below=5)}, "x"), ("rest", {}, "y"))
    chain = [table(f"t{n:04}", "first", f"t{n - 1:04}", ("any", {}, "x")) for n in range(1, 600)]
    made = course(number("a", 0, 9, sem=1), first, *chain)
    space = Space(made)
    assert nearest(space, find(made, {"a": Reading((made.measures["a"].scale.start,))}), "t0599") == ()
    assert prove(space) == ()


def test_a_table_of_very_many_inputs_is_given_up_and_not_crashed_on() -> None:
    names = [f"m{n}" for n in range(700)]
    rules = [(f"r{n}", {name: band(below=5)}, "x") for n, name in enumerate(names)]
    made = course(*(number(name, 0, 9) for name in names), table("t", "first", " ".join(names), *rules))
    assert [finding.code for finding in prove(Space(made))] == ["proof-unfinished"]
