"""A client is younger or older than the course is for.

What: the age of a client lies outside the course's `ages`; where course.yml gives none, from 0 to 120.

Why: what is proved of the rules is proved for these ages alone, so of this client nothing is.

Example:

    ages: [18, 90]                           # in course.yml
    client: {name: Tern, age: 14}            # in cases/

Cure: correct the client's age, or the `ages`. Before you widen them, think about who else comes with them.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "age-outside"


def check(scope: Scope) -> Iterator[Fault]:
    low, high = scope.course.about.ages
    for case in scope.course.cases.values():
        age = case.client.age
        if age is not None and low <= high and not low <= age <= high:
            yield Fault(
                case.origin.at("client", "age"),
                f"case:{case.name}",
                f"{case.name} is {age}, and the course is for ages from {low} to {high}.",
                "Correct the age, or the `ages` in course.yml.",
            )
