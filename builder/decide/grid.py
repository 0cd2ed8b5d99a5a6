"""Domains of measures: where a reading falls on the grid of values that can be recorded.

A client is a mapping from measure names to indexes on their domains: numbers count steps from `start`,
choices count the values in the order written, yes/no counts 0 for no and 1 for yes.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from builder.course import ChoiceScale, Measure, NumberScale, Reading

Value = Fraction | str | bool
"""What was found: a number in the measure's unit, a choice value's name, or yes/no."""

Client = Mapping[str, int]


def size(measure: Measure) -> int:
    """How many different values can be recorded."""
    match measure.scale:
        case NumberScale(start=start, stop=stop, step=step):
            return max(0, (stop - start) // step + 1)
        case ChoiceScale(values=values):
            return len(values)
        case _:
            return 2


def value(measure: Measure, index: int) -> Value:
    """The value at `index`. Raises IndexError outside the domain."""
    match measure.scale:
        case NumberScale(start=start, stop=stop, step=step):
            found = start + step * index
            if index >= 0 and found <= stop:
                return found
        case ChoiceScale(values=values):
            if 0 <= index < len(values):
                return tuple(values)[index]
        case _:
            if 0 <= index < 2:
                return index == 1
    raise IndexError(f"{measure.name} has no value number {index}")


def index(measure: Measure, reading: Reading) -> int:
    """The index that is recorded for a reading.

    For trials of a number: `floor((mean - start) / step + 1/2)`, the step nearest to their mean, the upper
    one where two are equally near, in exact rationals. Raises ValueError for a reading that cannot be: of
    another kind, no trial at all, an unknown choice, or off the grid.
    """
    match measure.scale:
        case NumberScale() as scale:
            if not reading.trials:
                raise ValueError(f"{measure.name} needs a number")
            total, trials = 0, len(reading.trials)
            for trial in reading.trials:
                steps = _steps(scale, trial)
                if steps is None:
                    raise ValueError(f"{measure.name} cannot read {trial}")
                total += steps
            # floor(total / trials + 1/2) in whole numbers
            return (2 * total + trials) // (2 * trials)
        case ChoiceScale(values=values):
            names = tuple(values)
            if not isinstance(reading.finding, str) or reading.finding not in names:
                raise ValueError(f"{measure.name} has no value {reading.finding}")
            return names.index(reading.finding)
        case _:
            if not isinstance(reading.finding, bool):
                raise ValueError(f"{measure.name} is answered by yes or no")
            return int(reading.finding)


def on_grid(measure: Measure, number: Fraction) -> bool:
    """Whether a number is one that this measure can record. False for measures that are no numbers."""
    return isinstance(measure.scale, NumberScale) and _steps(measure.scale, number) is not None


def _steps(scale: NumberScale, number: Fraction) -> int | None:
    """How many steps lead from the start to a number; None where it is not on the grid."""
    # (number - start) / step over whole numbers: this is asked of every trial of every client
    top, bottom = number.as_integer_ratio()
    start, of_start = scale.start.as_integer_ratio()
    step, of_step = scale.step.as_integer_ratio()
    stop, of_stop = scale.stop.as_integer_ratio()
    steps, left = divmod((top * of_start - start * bottom) * of_step, bottom * of_start * step)
    return None if left or steps < 0 or top * of_stop > stop * bottom else steps
