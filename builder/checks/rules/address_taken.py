"""A file in lessons/ has an address that something else has.

What: a lesson or a file beside the lessons would stand where the builder puts a page or a file of its own,
or where another lesson or file stands. Capital letters do not tell two addresses apart, since on many
machines they do not tell two files apart.

Why: only one of the two can be there; the other would be gone without a word.

Example:

    lessons/measures.md    # the page "Measures" is called measures.html

Cure: rename the file in lessons/, and the links that lead to it. What opens the home page is called
`lessons/index.md`.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import PurePosixPath

from builder.answers import addresses
from builder.course import Place
from builder.source.files import alike

from ..scope import Fault, Scope

CODE = "address-taken"

OWN_FILES = (
    addresses.STYLE,
    addresses.SCRIPT,
    addresses.WALK_SCRIPT,
    addresses.ASKING_SCRIPT,
    addresses.NOTE_SCRIPT,
    addresses.QUIZ_SCRIPT,
    addresses.RECORD_ITEMS,
    addresses.RECORD_SCRIPT,
    addresses.HANDOVER_SCRIPT,
    addresses.CHANCES_SCRIPT,
    addresses.DRAW_SCRIPT,
    addresses.TASK_SCRIPT,
    addresses.RESULT_SCRIPT,
    addresses.RECORD_INDEX,
    addresses.PACER_SCRIPT,
    addresses.FIGURE_SCRIPT,
    addresses.FILTER_SCRIPT,
    addresses.TODAY_SCRIPT,
    addresses.PLAN_SCRIPT,
    addresses.PLAN_INDEX,
    addresses.SEARCH_INDEX,
    addresses.SEARCH_SCRIPT,
    addresses.MANIFEST,
    addresses.ICON,
    addresses.KEEP_SCRIPT,
    addresses.WORKER,
    addresses.OFFLINE,
    addresses.OFFLINE_FILES,
    "assets/scheme.js",
    "assets/plumb.svg",
    "404.html",
    "sitemap.xml",
)
"""What the builder and its theme put beside the pages."""


def check(scope: Scope) -> Iterator[Fault]:
    pictures = map(addresses.position_picture, scope.course.positions)
    every = (*addresses.every_page(scope.answers, scope.unread), *OWN_FILES, *pictures)
    made = {alike(page): page for page in every}
    del made[addresses.HOME]  # an educator's own index.md opens the home page
    folders = {folder: page for address, page in made.items() for folder in _above(address)}
    first: dict[str, str] = {}
    below: dict[str, str] = {}
    beside = [(lesson.file, addresses.lesson(lesson.file)) for lesson in scope.course.lessons]
    beside += [(file, file.removeprefix("lessons/")) for file in scope.attached]
    for file, written in sorted(beside):
        address = alike(written)
        page = next((made[one] for one in (address, *_above(address)) if one in made), folders.get(address))
        other = next((first[one] for one in (address, *_above(address)) if one in first), below.get(address))
        if page is not None:
            message = f"This file would stand in the way of `{page}`, which the builder makes."
            yield Fault(Place(file), f"file:{file}", message, "Rename it.")
        elif other is not None:
            message = f"This file would stand in the way of {other}: both would be `{written}`."
            yield Fault(Place(file), f"file:{file}", message, "Rename one of the two.")
        first.setdefault(address, file)
        below.update(dict.fromkeys(_above(address), file))


def _above(address: str) -> Iterator[str]:
    """The folders that an address needs."""
    return (str(folder) for folder in list(PurePosixPath(address).parents)[:-1])
