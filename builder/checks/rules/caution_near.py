"""A client may well meet a caution that the recorded readings miss.

What: with the error of measurement in mind, the chance that this client meets a `refer` or `urgent` caution
is above 5 of 100, and the key lets them go on: no table ends for them, and where the caution has `demands`,
they do not end as it demands.

Why: the readings lie near the line of something that can hurt. A coach would measure again, or send on.

Example:

    readings: {heart_rate: [118, 119]}      # the caution starts above 120, the error is 5

Cure: move the reading away from the line, or take more trials. If the client is meant to be near it, say in
the story what a careful coach does about it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.course import SENDS_ON, Case, Caution, NumberScale
from builder.decide.thresholds import above

from ..scope import Fault, Scope

CODE = "caution-near"
UNLIKELY = 0.05
"""Up to this chance nobody is warned."""


def check(scope: Scope) -> Iterator[Fault]:
    for case in scope.course.cases.values():
        for caution in scope.answers.space.cautions.values():
            if caution.level in SENDS_ON and _goes_on(scope, case, caution):
                chance = scope.answers.clients[case.name].chance_of_meeting[caution.name]
                if chance is not None and above(chance, UNLIKELY) and chance < 1:
                    yield _fault(scope, case, caution, chance)


def _goes_on(scope: Scope, case: Case, caution: Caution) -> bool:
    """Whether the key surely lets a client go on in spite of a caution: no table ends for them, and no demand
    of the caution is kept."""
    decisions = scope.answers.clients[case.name].decisions
    if "table" in scope.unread or any(scope.ways.may_end(case, table) for table in scope.course.tables):
        return False
    return not any(
        table not in decisions or decisions[table].outcome in outcomes or scope.ways.waits(case, table)
        for table, outcomes in caution.demands.items()
    )


def _fault(scope: Scope, case: Case, caution: Caution, chance: float) -> Fault:
    names = [name for when in caution.when for name in when if _is_uncertain(scope, name)]
    return Fault(
        case.origin.at("readings", *names[:1]),
        f"case:{case.name}",
        f"About {math.floor(100 * chance)} of 100 clients with the readings of {case.name} would meet the "
        f"caution {caution.name}, and the key lets them go on.",
        "Move the reading away from the line, or take more trials.",
    )


def _is_uncertain(scope: Scope, name: str) -> bool:
    scale = scope.course.measures[name].scale
    return isinstance(scale, NumberScale) and scale.sem > 0
