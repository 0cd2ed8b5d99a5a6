"""Something has changed since it was reviewed.

What: `reviewed` holds the digest of what was reviewed, and it is not that of what stands there now. Comments,
the order of keys and the review itself do not count.

Why: whoever reviewed the old text has not seen the new one. Learners would trust a review that nobody did.

Example:

    text: Stop loading. Ice it.                # nobody reviewed the ice
    reviewed: {role: physiotherapist, by: Ada Wagtail, on: 2026-06-01, text: "9c1d3f6ab2e40718"}

Cure: show the change to a reviewer, then run `casetrue review` again. Or take the change back.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..reviews import is_stale, reviewed
from ..scope import Fault, Scope

CODE = "review-stale"


def check(scope: Scope) -> Iterator[Fault]:
    for thing in reviewed(scope.course):
        if thing.review is not None and is_stale(thing.part):
            yield Fault(
                thing.origin.at("text"),
                thing.subject,
                f"What stands in {thing.what} is not what was reviewed on {thing.review.on}.",
                f"Show the change to a reviewer, then run `casetrue review {thing.subject}`.",
            )
