"""A name is used that nothing in the course has.

What: a rule, client, exercise or quiz names a measure, table, outcome, value, objective, source, lesson,
client, question, step, caution, drill or position that is not there. Most often it is a slip of the keys, or
something was renamed in one place only.

Why: the builder cannot guess whom or what you mean, and a rule on a misspelt finding would never hold.

Example:

    rules:
      - {id: low, when: {stance: wid}, then: stiff}     # the value is called wide

Cure: take the name that the hint proposes, or add what is missing. Lessons are named with their folder, for
example `lessons/knee-to-wall.md`. A trade fact without a published source cites `common-practice`; a value
from memory cites `from-memory`.
"""

from __future__ import annotations

from collections.abc import Iterator

from .references import references
from .scope import Fault, Scope, nearest

CODE = "missing-reference"

_HINT = "Correct the name, or write what it names."

_KINDS = {
    "measure": ("measure",),
    "measure or table": ("measure", "table"),
    "table": ("table",),
    "objective": ("objective",),
    "source": ("source",),
    "client": ("case",),
    "question": ("question",),
    "caution": ("caution",),
    "drill": ("drill",),
    "position": ("position",),
}
"""What a name should be, to the kinds of thing that could be it."""


def check(scope: Scope) -> Iterator[Fault]:
    for found in references(scope.course):
        kinds = _KINDS.get(found.what, ())
        is_unread = any(found.name in scope.unread.get(kind, ()) for kind in kinds)
        if found.name not in found.choices and not is_unread:
            hint = found.hint or nearest(found.name, found.choices) or _HINT
            yield Fault(found.place, found.subject, f"`{found.name}` is no {found.what}.", hint)
