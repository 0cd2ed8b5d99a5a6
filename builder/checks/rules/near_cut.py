"""A client's reading lies too near a line for the key to be sure.

What: a table decides this client, and if reading error were the only doubt, fewer than 80 of 100 clients with
these readings would truly be on this side of the lines.

Why: a learner would be marked wrong for an answer that may well be right. Such a client stays out of marked
quizzes.

Example:

    readings: {ankle_dorsiflexion: 34}      # the line lies at 34.5, the error is 2
    near_cut: [knee_flexion]                # names another reading

Cure: move the reading away from the line, take more trials, or, where the doubt is meant, name the reading
whose line is nearest under `near_cut`: the client then shows it, and may be used in quizzes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.course import Case
from builder.decide.doubt import is_sure_enough
from builder.decide.near_lines import NearLine

from ..scope import Fault, Scope

CODE = "near-cut"


def check(scope: Scope) -> Iterator[Fault]:
    for case in scope.course.cases.values():
        client = scope.answers.clients[case.name]
        for table, chance in client.chances.items():
            outcome = client.decisions[table].outcome
            if outcome is None or is_sure_enough(chance.chance[outcome]):
                continue
            if not client.known_near[table]:
                yield _fault(case, table, outcome, chance.chance[outcome], client.lines[table])


def _fault(case: Case, table: str, outcome: str, chance: float, found: tuple[NearLine, ...]) -> Fault:
    name = found[0].measure if found else None
    return Fault(
        case.origin.at("readings", name) if name else case.origin.at("readings"),
        f"case:{case.name}",
        f"The key `{outcome}` of {table} is not sure for {case.name}: with reading error, only about "
        f"{math.floor(100 * chance)} of 100 clients with these readings are on this side of the lines.",
        f"Move `{name}` away from the line, add trials, or name it under `near_cut`."
        if name
        else "Move the readings away from the lines, or add trials.",
    )
