"""Clients whom the builder makes up for practice, so that questions do not run out.

`practice:` in course.yml asks for a number of clients for each rule. They are drawn by a seed: spread over
the scale of every measure, a stated share of them near a line, none of whom the course says that they do not
occur. Each is named from the course's own list, and told to be made by the builder.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from builder.course import Case, Caution, Client, Course, NumberScale, Practice, Reading
from builder.decide.budget import Unfinished
from builder.decide.diagram import NO
from builder.decide.doubt import standard_error
from builder.decide.found import Found, Recorded
from builder.decide.near_lines import near_lines
from builder.decide.sampling import BITS, Sampler
from builder.decide.space import Space

from .pcg import Pcg32, seed_of

NEAR = 1.0
"""Standard errors within which a client lies near a line."""
FAR = 2
"""Standard errors that the others keep from every line, where there is room."""
_TRIES = 4
"""How many clients are drawn for a place before one is taken that lies not as it should."""


@dataclass(frozen=True, slots=True)
class Practised:
    """The clients made up, and what could not be."""

    cases: tuple[Case, ...] = ()
    """By table in pathway order, then by rule."""
    asked: int = 0
    """How many clients the course asks for: those for whom there is no name are counted too."""
    excluded: tuple[tuple[str, str], ...] = ()
    """Table and rule that somebody could come to, but nobody whom the course says to occur."""


def practised(course: Course, space: Space) -> Practised:
    """The clients that a course asks for; none where it asks for none."""
    practice = course.about.practice
    if practice is None:
        return Practised()
    never = {f"never:{number}": one.never for number, one in enumerate(practice.plausible)}
    cautions = {name: Caution(name, "", "watch", (when,), "") for name, when in never.items()}
    drawing = Space(replace(course, cautions={**course.cautions, **cautions}), space.steps)
    return _Maker(course, practice, space, Sampler(drawing), sorted(never)).made()


class _Maker:
    def __init__(
        self, course: Course, practice: Practice, space: Space, sampler: Sampler, never: Sequence[str]
    ) -> None:
        self._course, self._practice, self._space, self._sampler = course, practice, space, sampler
        self._never = [name for name in never if name in sampler.space.cautions]
        self._trials = {name: _most_trials(course, name) for name in course.measures}

    def made(self) -> Practised:
        cases: list[Case] = []
        excluded: list[tuple[str, str]] = []
        taken = {case.client.name for case in self._course.cases.values()}
        names = iter([name for name in self._practice.names if name not in taken])
        asked = 0
        for table in self._space.tables.values():
            for number, rule in enumerate(table.rules):
                try:
                    reached = self._sampler.decided_by(table.name, number)
                    clients = self._sampler.without(reached, self._never)
                except Unfinished:
                    continue
                if clients == NO:
                    excluded += [(table.name, rule.id)] if reached != NO else []
                    continue
                clients = self._preferred(clients, table.name)
                asked += self._practice.each
                for place, found in enumerate(self._clients(table.name, rule.id, clients)):
                    name = next(names, None)
                    if name is not None:
                        cases.append(self._case(f"{table.name}--{rule.id}--{place + 1}", name, found))
        return Practised(tuple(cases), asked, tuple(excluded))

    def _preferred(self, clients: int, table: str) -> int:
        """Those whom no earlier table sends on, where there are any: nothing is asked about the others."""
        try:
            going_on = self._sampler.going_on(clients, table)
        except Unfinished:
            return clients
        return clients if going_on == NO else going_on

    def _clients(self, table: str, rule: str, clients: int) -> Iterator[dict[str, int]]:
        """The clients of one rule: each draw depends on the seed, the table and the rule alone."""
        chance = Pcg32(seed_of(f"{self._practice.seed}/{table}/{rule}"))
        count = self._practice.each
        near = math.ceil(self._practice.near * count)
        spread = {name: chance.shuffled(range(count)) for name in self._space.measures}
        for place in range(count):
            for _ in range(_TRIES):
                quantiles = {
                    name: ((order[place] << BITS) + chance.next()) // count for name, order in spread.items()
                }
                drawn = self._sampler.client(clients, quantiles)
                found = self._placed(table, drawn, chance, is_near=place < near)
                if self._is_near(table, found) == (place < near):
                    break
            yield found

    def _placed(
        self, table: str, drawn: Mapping[str, int], chance: Pcg32, *, is_near: bool
    ) -> dict[str, int]:
        """The client moved within the cells: one number to a line, or every number away from all lines."""
        moved = dict(drawn)
        numbers = [name for name in sorted(self._space.read_by(table)) if self._lines(name, drawn[name])]
        if is_near and numbers:
            name = numbers[chance.below(len(numbers))]
            first, last = self._cell(name, drawn[name])
            lines = self._lines(name, drawn[name])
            line = lines[chance.below(len(lines))]
            away = chance.below(max(0, math.floor(self._errors(name) * NEAR - 0.5)) + 1)
            moved[name] = min(last, line + away) if line == first else max(first, line - away)
        for name in () if is_near else numbers:
            first, last = self._cell(name, drawn[name])
            room, lines = math.ceil(FAR * self._errors(name)), self._lines(name, drawn[name])
            low, high = first + room * (first in lines), last - room * (last in lines)
            if low > high:
                low = high = (first + last) // 2
            moved[name] = low + (drawn[name] - first) * (high - low) // max(1, last - first)
        return moved

    def _is_near(self, table: str, found: Mapping[str, int]) -> bool:
        recorded = {name: self._recorded(name, index) for name, index in found.items()}
        lines = near_lines(self._space, Found(recorded), table)
        return bool(lines) and lines[0].errors <= NEAR

    def _recorded(self, name: str, index: int) -> Recorded:
        return Recorded(index, self._space.value(name, index), self._trials[name])

    def _errors(self, name: str) -> float:
        """The standard error of a number's recorded value in steps; 0 for what is certain."""
        scale = self._course.measures[name].scale
        if not isinstance(scale, NumberScale) or not scale.sem:
            return 0.0
        return standard_error(scale, self._trials[name]) / float(scale.step)

    def _cell(self, name: str, index: int) -> tuple[int, int]:
        axis = self._sampler.space.axes[name]
        cell = axis.cells[axis.cell(index)]
        return cell[0], cell[-1]

    def _last(self, name: str) -> int:
        return self._sampler.space.axes[name].cells[-1][-1]

    def _lines(self, name: str, index: int) -> list[int]:
        """The ends of a value's cell at which a line lies; none for what is certain."""
        if not self._errors(name):
            return []
        first, last = self._cell(name, index)
        return [end for end, edge in ((first, 0), (last, self._last(name))) if end != edge]

    def _case(self, case: str, name: str, found: Mapping[str, int]) -> Case:
        chance = Pcg32(seed_of(f"{self._practice.seed}/{case}"))
        age = None
        readings: dict[str, Reading] = {}
        for measure in self._course.measures.values():
            if measure.name not in found:
                continue
            value = self._space.value(measure.name, found[measure.name])
            if not isinstance(value, Fraction):
                readings[measure.name] = Reading(finding=value)
                continue
            if measure.of_client:
                age = int(value)
            readings[measure.name] = Reading(self._tried(measure.name, found[measure.name], chance))
        return Case(case, Client(name, age), readings)

    def _tried(self, name: str, index: int, chance: Pcg32) -> tuple[Fraction, ...]:
        """Trials whose mean is the value: in pairs as far above it as below."""
        trials, room = self._trials[name], min(index, self._last(name) - index)
        most = min(room, math.ceil(self._errors(name)))
        apart = [chance.below(most + 1) for _ in range(trials // 2)]
        places = [index + step for one in apart for step in (one, -one)] + [index] * (trials % 2)
        values = (self._space.value(name, place) for place in chance.shuffled(places))
        return tuple(value for value in values if isinstance(value, Fraction))


def _most_trials(course: Course, name: str) -> int:
    """As many trials as most written clients have of a measure; 1 where there is none."""
    read = (case.readings[name] for case in course.cases.values() if name in case.readings)
    counted = Counter(len(one.trials) for one in read if one.trials)
    return min(counted, key=lambda trials: (-counted[trials], trials)) if counted else 1
