"""Where a table's outcome changes for one client if a number alone were different."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from fractions import Fraction

from builder.course import NumberScale

from .budget import Unfinished
from .doubt import standard_error
from .found import Found
from .searches import deciding
from .space import Space, Turn
from .thresholds import above
from .traversal import follow


@dataclass(frozen=True, slots=True)
class NearLine:
    """Where a table's outcome changes for one client if one number alone were different."""

    measure: str
    at: Fraction
    """Midway between the last step on one side and the first on the other, in the measure's unit."""
    distance: Fraction
    """How far the recorded value lies from it, in the measure's unit; positive."""
    errors: float
    """The same in standard errors of the recorded value."""
    beyond: str | None
    """The outcome on the far side; None where there is none."""


def near_lines(space: Space, found: Found, table: str) -> tuple[NearLine, ...]:
    """The nearest line in each direction of every uncertain number that a table reads, by itself or through
    other tables; the fewest standard errors first.

    A line is where the table's outcome changes when that number alone is different and all else is as
    recorded. Where there is none at all, since only several numbers together would change it, every edge of
    the cells around the recorded values counts. Empty where a reading is missing that the table needs.
    """
    read = space.read_by(table)
    if not read <= found.recorded.keys():
        return ()
    cells = tuple(space.axes[name].cell(found.recorded[name].index) for name in sorted(read))
    turns = space.turns.get((table, cells))
    if turns is None:
        try:
            turns = space.turns[table, cells] = _turns(space, table, cells)
        except Unfinished:
            return ()
    around = (_line(space, found, turn) for turn in turns)
    return tuple(sorted(around, key=lambda line: (line.errors, line.measure, line.at)))


def is_known_near(space: Space, found: Found, table: str, near_cut: Collection[str]) -> bool:
    """Whether a client's `near_cut` names a number whose line for a well-formed table is nearest."""
    if not near_cut:
        return False
    sorted_lines = near_lines(space, found, table)
    return any(
        line.measure in near_cut for line in sorted_lines if not above(line.errors, sorted_lines[0].errors)
    )


def _turns(space: Space, table: str, cells: Sequence[int]) -> tuple[Turn, ...]:
    """Where a table turns for clients in these cells of all that it reads, by name. Raises Unfinished."""
    names, outcomes = sorted(space.read_by(table)), [*space.tables[table].outcomes, None]
    at = {space.levels[name]: cell for name, cell in zip(names, cells, strict=True)}
    walk = deciding(space, table)
    here = follow(walk, at)
    turns, edges = [], []

    def turning(name: str, way: int, cell: int, there: int) -> Turn:
        """At the line before a cell, coming from the recorded value upwards (`way` 1) or downwards (-1)."""
        line = space.axes[name].line(cell if way > 0 else cell + 1)
        return Turn(name, line, outcomes[there])

    for name in names:
        if _is_uncertain(space, name):
            level = space.levels[name]
            for way in (range(at[level] - 1, -1, -1), range(at[level] + 1, space.widths[level])):
                results = ((cell, follow(walk, {**at, level: cell})) for cell in way)
                turn = next(((cell, there) for cell, there in results if there != here), None)
                if turn is not None:
                    turns.append(turning(name, way.step, *turn))
                elif way:
                    edges.append(turning(name, way.step, way[0], here))
    return tuple(turns or edges)


def _line(space: Space, found: Found, turn: Turn) -> NearLine:
    scale, here = space.course.measures[turn.measure].scale, found.recorded[turn.measure]
    assert isinstance(scale, NumberScale)
    assert isinstance(here.value, Fraction)
    distance = abs(here.value - turn.at)
    errors = float(distance) / standard_error(scale, here.trials)
    return NearLine(turn.measure, turn.at, distance, errors, turn.beyond)


def _is_uncertain(space: Space, name: str) -> bool:
    scale = space.course.measures[name].scale
    return isinstance(scale, NumberScale) and scale.sem > 0
