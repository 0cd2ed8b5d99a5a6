"""A condition does not fit the kind of finding that it is about.

What: a rule or a caution asks a number for `true`, a choice for `at_least`, or the like; or `near_cut` names
a reading that is not a number.

Why: such a condition never holds, so the rule would silently match nobody.

Example:

    when: {heel_pain: {at_least: 1}}        # heel_pain is answered by yes or no

Cure: numbers take `at_least`, `above`, `at_most` and `below`; choices and other tables take a name or a list
of names; yes_no takes `true` or `false`.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import AnyOf, Band, ChoiceScale, Condition, Course, Is, NumberScale, Origin, When

from ..scope import Fault, Scope

CODE = "wrong-kind"

_NUMBER = "a number: use `at_least`, `above`, `at_most` or `below`"
_CHOICE = "a choice: use one of its values, or a list of them"
_YES_NO = "answered by yes or no: use `true` or `false`"
_TABLE = "a table: use one of its outcomes, or a list of them"


def check(scope: Scope) -> Iterator[Fault]:
    course = scope.course
    for table in course.tables.values():
        for rule in table.rules:
            yield from _when(course, rule.when, rule.origin.below("when"), f"rule:{table.name}/{rule.id}")
    for caution in course.cautions.values():
        for number, when in enumerate(caution.when):
            yield from _when(course, when, caution.origin.below("when", number), f"caution:{caution.name}")
    for one in course.about.practice.plausible if course.about.practice else ():
        yield from _when(course, one.never, one.origin.below("never"), f"course:{course.about.name}")
    for case in course.cases.values():
        for name in case.said:
            if name in course.measures and isinstance(course.measures[name].scale, NumberScale):
                message = f"`{name}` is a number, so the client cannot say it in words."
                hint = "Words stand for a choice or a yes or no. A number is read from its trials."
                yield Fault(case.origin.at("said", name), f"case:{case.name}", message, hint)
        for number, name in enumerate(case.near_cut):
            if name in course.measures and not isinstance(course.measures[name].scale, NumberScale):
                place = case.origin.at("near_cut", number)
                message = f"`{name}` is no number, so it cannot be near a line."
                yield Fault(place, f"case:{case.name}", message, "Leave it out of `near_cut`.")


def _when(course: Course, when: When, origin: Origin, subject: str) -> Iterator[Fault]:
    for name, condition in when.items():
        takes = _takes(course, name)
        if takes is not None and not isinstance(condition, takes[0]):
            message = f"The condition on `{name}` does not fit it: `{name}` is {takes[1].split(':')[0]}."
            hint = takes[1].split(": ")[1]
            yield Fault(origin.at(name), subject, message, hint[0].upper() + hint[1:] + ".")


def _takes(course: Course, name: str) -> tuple[type[Condition], str] | None:
    if name in course.measures:
        match course.measures[name].scale:
            case NumberScale():
                return Band, _NUMBER
            case ChoiceScale():
                return AnyOf, _CHOICE
            case _:
                return Is, _YES_NO
    return (AnyOf, _TABLE) if name in course.tables else None
