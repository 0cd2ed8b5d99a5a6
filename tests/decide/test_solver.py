"""Proofs of middling rule sets beside the z3 solver (de Moura and Bjørner 2008, TACAS, 337-340)."""

from __future__ import annotations

from random import Random

import pytest

from builder.course import Course
from builder.decide.proofs import prove
from builder.decide.space import Space

from .large import Size, layered, partitioned, spoilt
from .solver import Solver

MIDDLING = Size(measures=8, cells=5, tables=4, rules=12, inputs=4)


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("kind", [partitioned, layered, spoilt])
@pytest.mark.parametrize("feeds", [1, 2])
def test_proofs_find_what_the_solver_finds(seed: int, kind, feeds: int) -> None:
    course: Course = kind(Random(seed), MIDDLING, feeds)
    findings = prove(Space(course))
    solver = Solver(course)
    for name, table in course.tables.items():
        found = [finding for finding in findings if finding.table == name]
        assert not [one for one in found if one.code == "proof-unfinished"]
        assert any(one.code == "table-gap" for one in found) == solver.gap(name)
        assert {one.rules[0] for one in found if one.code == "rule-unreachable"} == solver.dead(name)
        if table.policy == "unique":
            assert {one.rules for one in found if one.code == "table-overlap"} == solver.overlaps(name)
