"""A drill says one thing twice, or gives its answers away.

What: two phases or two faults of a drill have the same `id`; two faults show the same sign; or the same
correction comes first for every fault.

Why: learners are shown a sign and asked for its correction. They could not tell two faults with one sign
apart, and where one correction answers everything there is nothing to find.

Example:

    faults:
      - {id: lifts, sign: The heels lift, cause: A stiff ankle, corrections: [{say: A wedge}]}
      - {id: shakes, sign: The heels lift, cause: Too fast, corrections: [{say: Slower}]}

Cure: say in the sign what is seen this time and not the other, and give each fault its own first correction.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Drill
from builder.questions.corrections import folded

from ..scope import Fault, Scope

CODE = "drill-broken"


def check(scope: Scope) -> Iterator[Fault]:
    for drill in scope.course.drills.values():
        yield from _twice(drill)
        faults = [fault for phase in drill.phases for fault in phase.faults]
        if len(faults) > 2 and len({folded(fault.corrections[0].say) for fault in faults}) == 1:
            yield Fault(
                drill.origin.at("phases"),
                f"drill:{drill.name}",
                f"The same correction comes first for every fault of {drill.name}.",
                "Give each fault the correction that belongs to its sign.",
            )


def _twice(drill: Drill) -> Iterator[Fault]:
    subject = f"drill:{drill.name}"
    phases: set[str] = set()
    faults: set[str] = set()
    signs: set[str] = set()
    for phase in drill.phases:
        if phase.id in phases:
            message = f"Two phases of {drill.name} are called `{phase.id}`."
            yield Fault(phase.origin.at("id"), subject, message, "Choose another name.")
        phases.add(phase.id)
        for fault in phase.faults:
            if fault.id in faults:
                message = f"Two faults of {drill.name} are called `{fault.id}`."
                yield Fault(fault.origin.at("id"), subject, message, "Choose another name.")
            if folded(fault.sign) in signs:
                message = f"Two faults of {drill.name} show the same sign."
                hint = "Say what is seen this time and not the other."
                yield Fault(fault.origin.at("sign"), subject, message, hint)
            faults.add(fault.id)
            signs.add(folded(fault.sign))
