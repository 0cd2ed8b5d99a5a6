"""A caution's review is past its date.

What: the day after `due` has come.

Why: guidelines change. A caution that was right two years ago may not be now.

Example:

    reviewed: {role: physiotherapist, on: 2024-06-01, due: 2025-06-01}

Cure: have it reviewed again, and write the new days.
"""

from __future__ import annotations

from collections.abc import Iterator

from .date_invalid import is_day
from .scope import Fault, Scope

CODE = "review-due"


def check(scope: Scope) -> Iterator[Fault]:
    for caution in scope.course.cautions.values():
        review = caution.reviewed
        if review is None or review.due is None or scope.today is None:
            continue
        due = review.due
        if is_day(due) and review.on < due < scope.today:
            yield Fault(
                caution.origin.at("reviewed", "due"),
                f"caution:{caution.name}",
                f"The review of the caution {caution.name} was due on {due}.",
                "Have it reviewed again, and write the new days.",
            )
