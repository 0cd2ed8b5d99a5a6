"""The age of clients, as a measure where tables or cautions read it (course format, "Age")."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from builder.course import AGE, Case, Course, Reading, fixed
from builder.words import words_for
from builder.words.age import age


def with_age(course: Course) -> Course:
    """The course with its clients' age as one more measure, in years with step 1 and no error, where a table
    or a caution reads `age` and nothing else in the course bears that name; else the course as it is."""
    if AGE in course.measures or AGE in course.tables or not _reads_age(course):
        return course
    measure = age(words_for(course.about.language), course.about)
    cases = {name: replace(case, readings=_readings(case)) for name, case in course.cases.items()}
    return replace(course, measures=fixed({**course.measures, AGE: measure}), cases=fixed(cases))


def _readings(case: Case) -> Mapping[str, Reading]:
    """What was read of a client and their age, which is told of the client alone."""
    read = {name: reading for name, reading in case.readings.items() if name != AGE}
    if case.client.age is not None:
        read[AGE] = Reading((Fraction(case.client.age),))
    return fixed(read)


def _reads_age(course: Course) -> bool:
    whens = [rule.when for table in course.tables.values() for rule in table.rules]
    whens += [when for caution in course.cautions.values() for when in caution.when]
    inputs = (table.inputs for table in course.tables.values())
    return any(AGE in names for names in (*whens, *inputs))
