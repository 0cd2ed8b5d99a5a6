"""No clinician has reviewed a caution or a drill.

What: `reviewed` is `not_yet`, or is not there, or says `clinician: false`.

Why: cautions and drills can hurt people. Until a clinician has reviewed it, its page says so, and that it
must not be used with clients.

Example:

    reviewed: not_yet

Cure: ask a clinician with the right licence to read it. When that has truly been done, write `reviewed:
{role: physiotherapist, on: 2026-06-01, due: 2027-06-01}` with the real role and days. Until then leave
`not_yet`: it is the honest answer, and this warning does no harm. Where somebody has read it who is no
clinician, add `clinician: false`: the page names them, and still says that no clinician has reviewed it.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..reviews import awaits_clinician, reviewed
from ..scope import Fault, Scope

CODE = "review-missing"


def check(scope: Scope) -> Iterator[Fault]:
    for thing in reviewed(scope.course):
        if thing.is_needed and awaits_clinician(thing.part):
            yield Fault(
                thing.origin.at(),
                thing.subject,
                f"No clinician has reviewed {thing.what} yet.",
                "Its page says so. Note the review here once it has been done.",
            )
