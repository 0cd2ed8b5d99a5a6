"""What the course calls implausible leaves nobody for a rule.

What: somebody could be decided by this rule, but nobody whom `practice: plausible` in course.yml leaves.

Why: learners would never practise this rule on a client whom the builder makes up, and nobody would notice.

Example:

    practice:
      plausible: [{never: {heel_pain: true}}]    # a rule asks for heel_pain: true

Cure: make `never` narrower, so that it leaves out only what does not occur; or leave it if that is meant,
and write clients of your own for the rule.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..scope import Fault, Scope

CODE = "practice-excluded"


def check(scope: Scope) -> Iterator[Fault]:
    practice = scope.course.about.practice
    if practice is None or scope.rules_unread:
        return
    for table, rule in scope.answers.practised.excluded:
        message = f"Practice has no client for rule {rule} of {table}: `plausible` leaves nobody."
        yield Fault(
            practice.origin.at("plausible"),
            f"course:{scope.course.about.name}",
            message,
            "Make a `never` narrower, or write clients for the rule yourself.",
        )
