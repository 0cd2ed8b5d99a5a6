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
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from builder.course import NumberScale

from .budget import Unfinished
from .cells import Axis
from .found import Found
from .searches import deciding, meeting
from .space import Space, Weights
from .thresholds import at_least
from .traversal import S, Traversal

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
