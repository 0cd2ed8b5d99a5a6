"""The same questions put to the z3 solver, which knows nothing of cells and diagrams."""

from __future__ import annotations

from itertools import combinations

import z3

from builder.course import AnyOf, Band, Condition, Course, NumberScale

COMPARED = {
    "at_least": lambda one, cut: one >= cut,
    "above": lambda one, cut: one > cut,
    "at_most": lambda one, cut: one <= cut,
    "below": lambda one, cut: one < cut,
}


class Solver:
    """A course of numbers on whole steps and of tables, as formulas over one unknown client."""

    def __init__(self, course: Course, seconds: float | None = None) -> None:
        self.course = course
        self.solver = z3.Solver()
        if seconds is not None:
            self.solver.set("timeout", int(seconds * 1000))
        self.unknown: dict[str, z3.ArithRef] = {}
        for name, measure in course.measures.items():
            scale = measure.scale
            assert isinstance(scale, NumberScale)
            assert scale.step == 1
            one = self.unknown[name] = z3.Int(name)
            self.solver.add(one >= int(scale.start), one <= int(scale.stop))
        self.reached: dict[str, z3.BoolRef] = {}
        self.matches: dict[str, list[z3.BoolRef]] = {}
        for name, table in course.tables.items():
            numbers = {outcome: number for number, outcome in enumerate(table.outcomes)}
            feeds = [one for one in table.inputs if one in course.tables]
            self.reached[name] = z3.And([self.unknown[feed] >= 0 for feed in feeds])
            matches = [z3.Bool(f"{name}/{n}") for n in range(len(table.rules))]
            self.matches[name] = matches
            for match, rule in zip(matches, table.rules, strict=True):
                self.solver.add(match == z3.And([self._holds(i, one) for i, one in rule.when.items()]))
            outcome: z3.ArithRef = z3.IntVal(-1)
            for n in range(len(matches) - 1, -1, -1):
                others = matches[:n] if table.policy == "first" else matches[:n] + matches[n + 1 :]
                counts = z3.And(matches[n], z3.Not(z3.Or(others)))
                outcome = z3.If(counts, numbers[table.rules[n].then], outcome)
            self.unknown[name] = z3.Int(name)
            self.solver.add(self.unknown[name] == z3.If(self.reached[name], outcome, -1))

    def _holds(self, name: str, condition: Condition) -> z3.BoolRef:
        one = self.unknown[name]
        match condition:
            case Band(bounds=bounds):
                return z3.And([COMPARED[bound](one, int(cut)) for bound, cut in bounds.items()])
            case AnyOf(names=names):
                outcomes = list(self.course.tables[name].outcomes)
                return z3.Or([one == outcomes.index(outcome) for outcome in names])
            case _:
                raise AssertionError("only numbers and tables")

    def arises(self, *formulas: z3.BoolRef) -> bool | None:
        """Whether some client fits; None where the time ran out."""
        answer = self.solver.check(*formulas)
        return None if answer == z3.unknown else answer == z3.sat

    def gap(self, table: str) -> bool | None:
        return self.arises(self.reached[table], z3.Not(z3.Or(self.matches[table])))

    def overlaps(self, table: str) -> set[tuple[int, int]]:
        pairs = combinations(enumerate(self.matches[table]), 2)
        return {(i, j) for (i, one), (j, two) in pairs if self.arises(self.reached[table], one, two)}

    def dead(self, table: str) -> set[int]:
        return {n for n in range(len(self.matches[table])) if self.counts(table, n) is False}

    def counts(self, table: str, rule: int) -> bool | None:
        matches = self.matches[table]
        above = matches[:rule] if self.course.tables[table].policy == "first" else []
        return self.arises(self.reached[table], matches[rule], z3.Not(z3.Or(above)))
