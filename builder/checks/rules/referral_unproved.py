"""A caution sends people on, and nothing proves that the tables do.

What: a caution of the level `refer` or `urgent` has no `demands`.

Why: without it the builder cannot prove that everyone who meets the caution is sent on.

Example:

    level: refer
    when: [{heel_pain: true}]
    # no demands

Cure: name the table that decides it, and the outcomes in which it may end: `demands: {plan: [refer_out]}`.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "referral-unproved"


def check(scope: Scope) -> Iterator[Fault]:
    for finding in scope.findings(CODE):
        caution = scope.course.cautions[finding.caution or ""]
        yield Fault(
            caution.origin.at("level"),
            f"caution:{caution.name}",
            f"Nothing proves that clients who meet {caution.name} are sent on.",
            "Add `demands` with the outcomes that send them on.",
        )
