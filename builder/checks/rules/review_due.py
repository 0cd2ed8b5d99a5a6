"""A review is past its date.

What: the day after `due` has come.

Why: guidelines change. A caution that was right two years ago may not be now.

Example:

    reviewed: {role: physiotherapist, on: 2024-06-01, due: 2025-06-01}

Cure: have it reviewed again, and write the new days.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..reviews import is_day, reviewed
from ..scope import Fault, Scope

CODE = "review-due"


def check(scope: Scope) -> Iterator[Fault]:
    for thing in reviewed(scope.course):
        if thing.review is None or thing.review.due is None or scope.today is None:
            continue
        due = thing.review.due
        if is_day(due) and thing.review.on < due < scope.today:
            yield Fault(
                thing.origin.at("due"),
                thing.subject,
                f"The review of {thing.what} was due on {due}.",
                "Have it reviewed again, and write the new days.",
            )
