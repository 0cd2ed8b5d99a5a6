"""The course does not say how to reach someone whom a caution calls for.

What: a caution's `refer_to` names a role that `contacts` in course.yml does not have, or a caution is urgent
and the course has no `emergency` number.

Why: a coach who reads the caution needs to know whom to call.

Example:

    refer_to: physiotherapist        # course.yml has no contacts

Cure: in course.yml write `contacts: {physiotherapist: {label: Physiotherapist, how: ...}}`, or for an urgent
caution `emergency: {number: ..., note: ...}`.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope, nearest

CODE = "contact-missing"


def check(scope: Scope) -> Iterator[Fault]:
    if scope.about_unread:
        return
    about = scope.course.about
    for caution in scope.course.cautions.values():
        at, subject = caution.origin.at, f"caution:{caution.name}"
        if caution.refer_to is not None and caution.refer_to not in about.contacts:
            message = f"The course has no contact called `{caution.refer_to}`."
            hint = f"{nearest(caution.refer_to, about.contacts)} Contacts stand in course.yml.".strip()
            yield Fault(at("refer_to"), subject, message, hint)
        if caution.level == "urgent" and about.emergency is None:
            message = f"The caution {caution.name} is urgent, and the course names no emergency number."
            yield Fault(at(), subject, message, "Add `emergency` with a `number` to course.yml.")
