"""No clinician has reviewed a caution.

What: `reviewed` is `not_yet`, or is not there.

Why: cautions can hurt people. Until a clinician has reviewed it, its page says so, and that it must not be
used with clients.

Example:

    reviewed: not_yet

Cure: ask a clinician with the right licence to read it. When that has truly been done, write `reviewed:
{role: physiotherapist, on: 2026-06-01, due: 2027-06-01}` with the real role and days. Until then leave
`not_yet`: it is the honest answer, and this warning does no harm.
"""

from __future__ import annotations

from collections.abc import Iterator

from .scope import Fault, Scope

CODE = "review-missing"


def check(scope: Scope) -> Iterator[Fault]:
    for caution in scope.course.cautions.values():
        if caution.reviewed is None:
            yield Fault(
                caution.origin.at("reviewed"),
                f"caution:{caution.name}",
                f"No clinician has reviewed the caution {caution.name} yet.",
                "Its page says so. Note the review here once it has been done.",
            )
