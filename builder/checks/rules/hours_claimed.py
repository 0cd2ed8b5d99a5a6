"""The course claims more hours than it comes to.

What: `hours` in course.yml is more than both estimates of contact time, each rounded as `contact_time` says:
by the published formula of Mergener, and by words, questions and exercises.

Why: coaches report these hours to bodies that trust them, and answer for them when they are checked.

Example:

    hours: 12
    contact_time: {difficulty: 2}        # its lessons and quizzes come to 4 hours

Cure: claim fewer hours, or set `minutes_per_question` and `minutes_per_exercise` to what your learners take:
`casetrue records` tells it from the records that they hand over.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..contact_time import amounts, estimate, rounded
from ..scope import Fault, Scope

CODE = "hours-claimed"


def check(scope: Scope) -> Iterator[Fault]:
    about = scope.course.about
    settings = about.contact_time
    if about.hours is None or settings is None or scope.unread or scope.about_unread:
        return
    found = estimate(
        amounts(scope.answers, (scope.texts.get(one.file, "") for one in scope.course.lessons)), settings
    )
    most = rounded(found.longer, settings.rounding)
    if about.hours > most:
        message = f"The course claims {float(about.hours):g} hours and comes to {float(most):.2f} at most."
        hint = (
            f"By the formula it takes {float(found.formula / 60):.2f} hours, by words, questions and "
            f"exercises {float(found.by_time / 60):.2f}. Claim no more, or mend `contact_time`."
        )
        yield Fault(about.origin.at("hours"), f"course:{about.name}", message, hint)
