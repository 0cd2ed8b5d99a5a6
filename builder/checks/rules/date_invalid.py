"""A date is not on the calendar, or two dates are in the wrong order.

What: the day of a review, or the day when the next is due, is no day, or the next is
due before the last one was done.

Why: a review date that cannot be is a promise that nobody can keep track of.

Example:

    reviewed: {role: physiotherapist, on: 2026-02-30, due: 2026-01-01}

Cure: write the day as year-month-day, for example 2026-06-01.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..reviews import is_day, reviewed
from ..scope import Fault, Scope

CODE = "date-invalid"


def check(scope: Scope) -> Iterator[Fault]:
    for thing in reviewed(scope.course):
        review, at = thing.review, thing.origin.at
        if review is None:
            continue
        days = {"on": review.on} if review.due is None else {"on": review.on, "due": review.due}
        for key, day in days.items():
            if not is_day(day):
                hint = "Write it as year-month-day, for example 2026-06-01."
                yield Fault(at(key), thing.subject, f"`{day}` is no day of the calendar.", hint)
        if review.due is not None and all(map(is_day, days.values())) and review.due <= review.on:
            message = f"The next review of {thing.what} is due on {review.due}, not after the last one."
            yield Fault(at("due"), thing.subject, message, "`due` must be later than `on`.")
