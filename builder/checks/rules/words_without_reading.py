"""A client's words, or a story, stand for a reading that is not there.

What: `said` or `told` names a measure of which the client has no reading.

Why: the reading is the key to what the words come to. Without it nobody can tell whether a learner heard them
rightly.

Example:

    readings: {stance: hip}
    said: {heel_pain: "Only when I stub it."}        # and no reading of heel_pain

Cure: add the reading, or leave the measure out of `said` and `told`.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Case

from ..scope import Fault, Scope, meant

CODE = "words-without-reading"


def check(scope: Scope) -> Iterator[Fault]:
    for case in scope.course.cases.values():
        there = {*case.readings, *meant(case.readings, scope.course.measures)}
        for name in case.said:
            if name in scope.course.measures and name not in there:
                message = f"{case.name} speaks of `{name}`, and has no reading of it."
                yield _fault(case, name, message, "said", name)
        for number, name in enumerate(case.told):
            if name in scope.course.measures and name not in there:
                message = f"The story of {case.name} tells `{name}`, and there is no reading of it."
                yield _fault(case, name, message, "told", number)


def _fault(case: Case, name: str, message: str, *place: str | int) -> Fault:
    hint = f"Add `{name}` to the readings: what the words come to."
    return Fault(case.origin.at(*place), f"case:{case.name}", message, hint)
