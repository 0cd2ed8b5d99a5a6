"""Asks for a client's outcome of one table.

The options are the table's outcomes in the order written. The explanation puts each condition of the rule
that counts beside the client's reading, and gives its reason; every wrong option says which condition of its
rules does not hold for this client, and which mistake leads to it. A client whom an earlier table sends on is
asked about only where this table sends them too.

Example: `{id: g-plan, family: decision, table: plan, cases: all, objective: choose-ankle-plan}` asks
"Tern: What do you plan for this ankle?" and so on, once for each client who reaches the table.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from builder.course import Family, Outcome
from builder.decide.explain import Explanation

from ..frame import Answer, ClientFacts, Draft, Frame, Says, chance_of_key, is_sent_on_before
from ..reasons import together, why_not
from ..slips import of_outcomes, slips
from ..units import rule_unit, stopping


def drafts(family: Family, about: ClientFacts) -> Iterator[Draft]:
    table, explanation = about.course.tables[family.table], about.explained[family.table]
    key = about.outcome(table.name)
    if key is None or is_sent_on_before(table, about):
        return
    found = slips(about, table)

    def wrong(name: str, outcome: Outcome) -> Answer:
        slip, said = of_outcomes(found, name)
        lacks = why_not(about.wording, about.course, about.said, explanation.others, name)
        acted = about.acted_on[table.name].get(name)
        return Answer(name, outcome.label, f"{lacks} {said}".strip(), acted, slip)

    yield Draft(
        of=about.case.name,
        stem=about.wording.text("decision-stem", client=about.case.client.name, question=table.question),
        right=Answer(key, table.outcomes[key].label),
        wrong=tuple(wrong(name, outcome) for name, outcome in table.outcomes.items() if name != key),
        why=_why(explanation, about),
        learnt=rule_unit(explanation.decision),
        order=tuple(table.outcomes),
        asks=table.question,
        source=explanation.source,
        case=about.case.name,
        table=table.name,
        right_name=key,
        sends=_sends(table.outcomes[key], about),
        stops=stopping(table, key),
    )


def holds(family: Family, about: ClientFacts, says: Says) -> bool:
    return about.outcomes[family.table] == says


def _sends(key: Outcome, about: ClientFacts) -> Literal["stopped", "referred"] | None:
    if not key.ends:
        return None
    return "stopped" if any(caution.level == "urgent" for caution in about.met) else "referred"


def _why(explanation: Explanation, about: ClientFacts) -> str:
    told = [together(about.said, explanation.checks)]
    if not explanation.checks:
        told = [about.wording.text("decision-rest")]
    if explanation.because:
        told.append(explanation.because.strip())
    return "\n\n".join(told)


FRAME = Frame(("table", "cases"), drafts, holds, fewest_wrong=0, chance=chance_of_key)
