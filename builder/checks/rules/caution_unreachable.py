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
    scale, cuts = measure.scale, band.bounds.values()
    # Whether a band holds can only change next to one of its cuts.
    nearby = {int((cut - scale.start) // scale.step) + offset for cut in cuts for offset in (-1, 0, 1)}
    last = size(measure) - 1
    indexes = {min(max(index, 0), last) for index in nearby}
    return not any(holds(band, value(measure, index)) for index in indexes if index >= 0)
