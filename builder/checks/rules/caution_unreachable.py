"""No client can meet a caution.

What: one of the sets under `when` asks for something that no reading can be, such as more than the measure's
range, or at least 50 and below 40 at once.

Why: a caution that never opens protects nobody.

Example:

    when: [{heart_rate: {above: 300}}]       # the measure ends at 220

Cure: correct the bounds, or the measure's `from` and `to`.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Band, Measure, NumberScale
from builder.decide.evaluate import holds
from builder.decide.grid import size, value
from builder.decide.lines import drawn_lines

from ..scope import Fault, Scope

CODE = "caution-unreachable"


def check(scope: Scope) -> Iterator[Fault]:
    measures = scope.course.measures
    for caution in scope.course.cautions.values():
        for number, when in enumerate(caution.when):
            for name, condition in when.items():
                measure = measures.get(name)
                if measure is not None and isinstance(condition, Band) and _never(measure, condition):
                    yield Fault(
                        caution.origin.at("when", number, name),
                        f"caution:{caution.name}",
                        f"No reading of `{name}` can meet this condition of {caution.name}.",
                        "Correct the bounds, or the range of the measure.",
                    )


def _never(measure: Measure, band: Band) -> bool:
    if not isinstance(measure.scale, NumberScale):
        return False
    # Whether a band holds can only change at one of its lines.
    starts = {0, *(line.above for line in drawn_lines(measure.scale, (band,)))}
    return not any(holds(band, value(measure, start)) for start in starts if 0 <= start < size(measure))
