"""A fault shows nothing by which it could be told.

What: all that a fault `shows` is as its phase looks when it goes well. What the phase does not say counts
as at rest: pelvis and ribs `level`, belly `soft`, neck and legs `quiet`, chest `widens`, back `long`,
breath `slow`.

Why: the drawing of the fault would be that of the sound phase. Nobody could see what is off, so it is neither
drawn nor asked about.

Example:

    looks: {belly: soft, ribs: down}
    faults:
      - {id: braces, sign: The belly braces, shows: {belly: soft}, ...}

Cure: say in `shows` what is otherwise, here `{belly: hard}`. What cannot be seen goes without `shows`, and
stays words.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import are_alike, seen

from ..scope import Fault, Scope

CODE = "look-same"


def check(scope: Scope) -> Iterator[Fault]:
    for drill in scope.course.drills.values():
        for phase in drill.phases:
            for fault in phase.faults:
                if fault.shows and are_alike(seen(phase, fault), seen(phase)):
                    message = (
                        f"The fault {fault.id} of {drill.name} looks just as {phase.id} does when it is good."
                    )
                    hint = "Say in `shows` what is otherwise, or leave `shows` out."
                    yield Fault(fault.origin.at("shows"), f"drill:{drill.name}", message, hint)
