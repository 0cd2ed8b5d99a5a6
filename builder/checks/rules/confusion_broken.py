"""A table explains a confusion that is none, or one of them twice.

What: an entry of `confusions` has the same outcome under `answered` and `right`, or names the same two as an
entry before it.

Why: nobody takes an outcome for itself, and only the first reason would ever be read.

Example:

    confusions: [{answered: wedge, right: wedge, because: They look alike.}]      # which for which?

Cure: name the outcome that people give under `answered`, the right one under `right`, each pair once.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "confusion-broken"


def check(scope: Scope) -> Iterator[Fault]:
    for table in scope.course.tables.values():
        pairs = [(one.answered, one.right) for one in table.confusions]
        for number, (confusion, pair) in enumerate(zip(table.confusions, pairs, strict=True)):
            if confusion.answered == confusion.right:
                message = f"A confusion of {table.name} takes `{confusion.right}` for itself."
                hint = "Name the outcome that people give under `answered`, the right one under `right`."
            elif pair in pairs[:number]:
                both = f"`{confusion.answered}` is given for `{confusion.right}`"
                message = f"{table.name} explains twice why {both}."
                hint = "Make one entry of the two."
            else:
                continue
            yield Fault(confusion.origin.at("answered"), f"table:{table.name}", message, hint)
