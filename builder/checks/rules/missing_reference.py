"""A name is used that nothing in the course has.

What: a rule, client, exercise or quiz names a measure, table, outcome, value, objective, source, lesson,
client, question, step, caution, drill or position that is not there; or a lesson leads to a page or a picture
that is not there. Most often it is a slip of the keys, or something was renamed in one place only. Links of
lessons that are written in HTML, and what follows a `#`, are not looked at.

Why: the builder cannot guess whom or what you mean, and a rule on a misspelt finding would never hold.

Example:

    rules:
      - {id: low, when: {stance: wid}, then: stiff}     # the value is called wide

Cure: take the name that the hint proposes, or add what is missing. Lessons are named with their folder, for
example `lessons/knee-to-wall.md`. Where a lesson leads on, a client's page ends in `.html`, as in
`clients/tern-03.html`, and any other page in `.md`, as in `tables/plan.md`. A trade fact without a published
source cites `common-practice`; a value from memory cites `from-memory`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from builder.course import RESERVED_SOURCES
from builder.problems.nearest import nearest_word
from builder.source.kinds import KINDS

from ..links import dead_links
from ..references import Mention, references
from ..scope import Fault, Scope, nearest

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

_WHERE = {kind.name: kind.where for kind in KINDS}


def check(scope: Scope) -> Iterator[Fault]:
    for found in references(scope.course):
        kinds = _KINDS.get(found.what, ())
        is_unread = any(found.name in scope.unread.get(kind, ()) for kind in kinds)
        if found.name not in found.choices and not is_unread:
            hint = found.hint or _nothing_yet(scope, found, kinds) or _nearest(found) or _HINT
            yield Fault(found.place, found.subject, f"`{found.name}` is no {found.what}.", hint)
    yield from dead_links(scope)


def _nothing_yet(scope: Scope, found: Mention, kinds: Sequence[str]) -> str:
    """What to add, where the course has nothing of that kind; else empty."""
    if not kinds or set(found.choices) - set(RESERVED_SOURCES):
        return ""
    where = _WHERE[kinds[0]]
    if any(file.startswith(where) for file in scope.texts):
        return ""
    hint = f"There is no {where} yet: add it, with `{found.name}` in it."
    return f"{hint} Without a published source, cite `common-practice`." if found.what == "source" else hint


def _nearest(found: Mention) -> str:
    if found.what != "lesson":
        return nearest(found.name, found.choices)
    # Folder, number and ending are alike in all lessons: what remains tells them apart.
    files = {_bare(file): file for file in found.choices}
    near = nearest_word(_bare(found.name), files)
    return f"Did you mean `{files[near]}`?" if near else "Write this lesson, or correct its name."


def _bare(file: str) -> str:
    return re.sub(r"^\d+[-_ ]*", "", file.rpartition("/")[2]).removesuffix(".md")
