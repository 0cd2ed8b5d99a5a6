"""A date is not on the calendar, or two dates are in the wrong order.

What: the day of a caution's review, or the day when the next is due, is no day, or the next is due before the
last one was done.

Why: a review date that cannot be is a promise that nobody can keep track of.

Example:

    reviewed: {role: physiotherapist, on: 2026-02-30, due: 2026-01-01}

Cure: write the day as year-month-day, for example 2026-06-01.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from .scope import Fault, Scope

CODE = "date-invalid"


def check(scope: Scope) -> Iterator[Fault]:
    for caution in scope.course.cautions.values():
        review = caution.reviewed
        if review is None:
            continue
        at, subject = caution.origin.below("reviewed").at, f"caution:{caution.name}"
        days = {"on": review.on} if review.due is None else {"on": review.on, "due": review.due}
        for key, day in days.items():
            if not is_day(day):
                hint = "Write it as year-month-day, for example 2026-06-01."
                yield Fault(at(key), subject, f"`{day}` is no day of the calendar.", hint)
        if review.due is not None and is_day(review.on) and is_day(review.due) and review.due <= review.on:
            message = f"The next review of {caution.name} is due on {review.due}, not after the last one."
            yield Fault(at("due"), subject, message, "`due` must be later than `on`.")


def is_day(text: str) -> bool:
    """Whether a text is a day written as YYYY-MM-DD."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False
