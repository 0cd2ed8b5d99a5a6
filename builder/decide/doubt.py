"""How sure a decision is, if reading error were the only doubt.

A recorded value stands for a true value that is normally distributed around it, with a flat prior, given
that it lies in the measure's domain: from half a step below `from` to half a step above `to`. Errors of
measures are independent. Choices, yes/no and numbers with an error of 0 are certain. Nothing here says that a
choice suits a client.

The normal model of one reading's error, and the standard error of a mean of trials, are those of classical
test theory; see Weir 2005, J Strength Cond Res 19(1):231-240, for the standard error of measurement itself.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from itertools import pairwise

from builder.course import NumberScale

from .budget import Unfinished
from .cells import Axis
from .found import Found
from .searches import deciding, meeting
from .space import Space, Turn, Weights
from .thresholds import above, at_least
from .traversal import S, Traversal, follow

SURE_ENOUGH = 0.8
"""Below this chance of its key a client is near a line."""

QUANTILE = Fraction(196, 100)
"""The standard normal distribution has 2.5 % beyond it, to two decimals as the course format has it."""


@dataclass(frozen=True, slots=True)
class Chance:
    """Of 1: how probable each outcome of a table is, given that the true values lie around the recorded
    ones."""

    chance: Mapping[str, float]
    """Every outcome of the table, in the order written."""
    undecided: float
    """What is left: true values that lead to no outcome. 1 where a reading is missing that the table
    needs."""


@dataclass(frozen=True, slots=True)
class Line:
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


def standard_error(scale: NumberScale, trials: int) -> float:
    """Standard error of a recorded value, in the measure's unit: `sem / sqrt(trials)`, and `sem` where
    averaging does not shrink it."""
    return float(scale.sem) / (math.sqrt(trials) if scale.sem_of == "trial" else 1)


def variance(scale: NumberScale, trials: int) -> Fraction:
    """The square of the standard error, exactly."""
    return scale.sem**2 / (trials if scale.sem_of == "trial" else 1)


def exceeds_error(distance: Fraction, variance: Fraction) -> bool:
    """Whether a distance is more than 1.96 standard errors, exactly."""
    return distance**2 > QUANTILE**2 * variance


def is_sure_enough(chance: float) -> bool:
    """Whether the chance of a key is enough for a marked quiz."""
    return at_least(chance, SURE_ENOUGH)


def likely(scale: NumberScale, recorded: Fraction, trials: int) -> tuple[float, float]:
    """Where 95 of 100 true values lie that stand behind a recorded value: 1.96 standard errors to either
    side, cut off at the ends of the domain (half a step beyond its values). Near an end it holds a little
    more, up to 97.5 of 100."""
    half, reach = scale.step / 2, float(QUANTILE) * standard_error(scale, trials)
    low, high = float(recorded) - reach, float(recorded) + reach
    return max(low, float(scale.start - half)), min(high, float(scale.stop + half))


def wrong_side(reading: float, line: float, standard_error: float) -> float:
    """The chance that the true value lies on the other side of a line, for a domain without ends:
    `Phi(-|reading - line| / standard_error)`. 0 where there is no error."""
    if standard_error == 0:
        return 0.0
    return 0.5 * math.erfc(abs(reading - line) / (standard_error * math.sqrt(2)))


def chances(space: Space, found: Found, more_trials: Mapping[str, int] | None = None) -> dict[str, Chance]:
    """The chance of every outcome of every well-formed table, in pathway order.

    `more_trials` adds trials to numbers at the same recorded value. Raises nothing: a table that is too large
    is undecided.
    """
    read = frozenset[str]().union(*(space.read_by(table) for table in space.tables))
    weights = _weights(space, read, found, more_trials or {})
    return {table: _chance(space, table, weights) for table in space.tables}


def chance(space: Space, found: Found, table: str, more_trials: Mapping[str, int] | None = None) -> Chance:
    """As `chances`, of one well-formed table."""
    return _chance(space, table, _weights(space, space.read_by(table), found, more_trials or {}))


def chance_of_meeting(space: Space, found: Found, caution: str) -> float | None:
    """The chance that a client meets a well-formed caution; None where a reading is missing that it asks for,
    or where it is too large."""
    read = {name for when in space.cautions[caution].when for name in when}
    weights = _weights(space, read, found, {})
    if len(weights) < len(read):
        return None
    try:
        return _spread(meeting(space, caution), weights).get(1, 0.0)
    except Unfinished:
        return None


def lines(space: Space, found: Found, table: str) -> tuple[Line, ...]:
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
    return tuple(sorted(map(partial(_line, space, found), turns), key=_nearest))


def is_known_near(space: Space, found: Found, table: str, near_cut: Collection[str]) -> bool:
    """Whether a client's `near_cut` names a number whose line for a well-formed table is nearest."""
    if not near_cut:
        return False
    sorted_lines = lines(space, found, table)
    return any(
        line.measure in near_cut for line in sorted_lines if not above(line.errors, sorted_lines[0].errors)
    )


def _nearest(line: Line) -> tuple[float, str, Fraction]:
    return line.errors, line.measure, line.at


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


def _line(space: Space, found: Found, turn: Turn) -> Line:
    scale, here = space.course.measures[turn.measure].scale, found.recorded[turn.measure]
    assert isinstance(scale, NumberScale)
    assert isinstance(here.value, Fraction)
    distance = abs(here.value - turn.at)
    errors = float(distance) / standard_error(scale, here.trials)
    return Line(turn.measure, turn.at, distance, errors, turn.beyond)


def _is_uncertain(space: Space, name: str) -> bool:
    scale = space.course.measures[name].scale
    return isinstance(scale, NumberScale) and scale.sem > 0


def _chance(space: Space, table: str, weights: Mapping[int, Weights]) -> Chance:
    outcomes = space.tables[table].outcomes
    mass: Mapping[int, float] = {}
    if all(space.levels[name] in weights for name in space.read_by(table)):
        try:
            mass = _spread(deciding(space, table), weights)
        except Unfinished:
            mass = {}
    chance = {name: mass.get(number, 0.0) for number, name in enumerate(outcomes)}
    return Chance(chance, mass.get(len(outcomes), 0.0) if mass else 1.0)


def _spread(walk: Traversal[S], weights: Mapping[int, Weights]) -> dict[int, float]:
    """How the whole probability of 1 spreads over the results of a walk. Raises Unfinished."""
    waiting: dict[int, dict[S, float]] = {}
    results: dict[int, float] = {}

    def arrive(state: S, mass: float) -> None:
        result = walk.result(state)
        if result is None:
            at = waiting.setdefault(walk.level(state), {})
            at[state] = at.get(state, 0.0) + mass
        else:
            results[result] = results.get(result, 0.0) + mass

    arrive(walk.start, 1.0)
    while waiting:
        level = min(waiting)
        for state, mass in waiting.pop(level).items():
            nexts = walk.nexts(state)
            for cell, weight in weights[level]:
                arrive(nexts[cell], mass * weight)
    # Rounding would leave what is certain a little short of 1.
    whole = math.fsum(results.values())
    return {result: mass / whole for result, mass in results.items()}


def _weights(space: Space, names: Iterable[str], found: Found, more: Mapping[str, int]) -> dict[int, Weights]:
    """For each level, the cells that the true value may lie in and how probable each is; levels without a
    usable reading are left out."""
    weights: dict[int, Weights] = {}
    for name in names:
        if name in found.recorded:
            here = found.recorded[name]
            trials = here.trials + more.get(name, 0)
            key = name, here.index, trials
            if key not in space.weights:
                space.weights[key] = _cell_weights(space.axes[name], here.index, trials)
            weights[space.levels[name]] = space.weights[key]
    return weights


def _cell_weights(axis: Axis, index: int, trials: int) -> Weights:
    scale = axis.measure.scale
    error = standard_error(scale, trials) if isinstance(scale, NumberScale) else 0.0
    if error == 0:
        return ((axis.cell(index), 1.0),)
    assert isinstance(scale, NumberScale)
    # In standard errors from the recorded value; half a step beyond the first and the last value of a cell.
    unit = float(scale.step) / error
    edges = [(cell[0] - index - 0.5) * unit for cell in axis.cells]
    edges.append((axis.cells[-1][-1] - index + 0.5) * unit)
    whole = _between(edges[0], edges[-1])
    parts = ((n, _between(low, high) / whole) for n, (low, high) in enumerate(pairwise(edges)))
    return tuple((n, part) for n, part in parts if part > 0)


def _between(low: float, high: float) -> float:
    """The share of the standard normal distribution between two numbers, without loss in its tails."""
    low, high = low / math.sqrt(2), high / math.sqrt(2)
    if low >= 0:
        return 0.5 * (math.erfc(low) - math.erfc(high))
    if high <= 0:
        return 0.5 * (math.erfc(-high) - math.erfc(-low))
    return 0.5 * (math.erf(high) - math.erf(low))
