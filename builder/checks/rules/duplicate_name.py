"""Two things have the same name.

What: two tables, measures, clients, questions, rules of one table and so on share a name; a table is called
like a measure; or two names differ only in capital letters, and their pages would be one file on many
machines.

Why: a name that points at two things points at neither.

Example:

    rules:
      - {id: low, when: {ankle: {below: 35}}, then: stiff}
      - {id: low, when: {ankle: {at_least: 35}}, then: free}

Cure: give one of the two another name, and change it wherever it is meant.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.course import Case, Caution, Drill, Exercise, Quiz, Table

from ..scope import Fault, Scope

CODE = "duplicate-name"

_HINT = "Rename one of them."


def check(scope: Scope) -> Iterator[Fault]:
    course = scope.course
    for table in course.tables.values():
        seen: set[str] = set()
        for rule in table.rules:
            if rule.id in seen:
                message = f"`{rule.id}` is the id of two rules of {table.name}."
                yield Fault(rule.origin.at("id"), f"rule:{table.name}/{rule.id}", message, _HINT)
            seen.add(rule.id)
    yield from _pages("table", course.tables)
    yield from _pages("caution", course.cautions)
    yield from _pages("case", course.cases)
    yield from _pages("drill", course.drills)
    yield from _pages("exercise", course.exercises)
    yield from _pages("quiz", course.quizzes)


def _pages(
    kind: str, things: Mapping[str, Table | Caution | Case | Drill | Exercise | Quiz]
) -> Iterator[Fault]:
    """Names that make one page on a machine that does not tell capital letters apart."""
    first: dict[str, str] = {}
    for name, thing in things.items():
        other = first.setdefault(name.casefold(), name)
        if other != name:
            message = f"`{other}` and `{name}` differ only in capital letters; their pages would be one file."
            yield Fault(thing.origin.at(kind), f"{kind}:{name}", message, _HINT)
