"""Asks for a client's outcome of one table.

The options are the table's outcomes in the order written. The explanation puts each condition of the rule
that counts beside the client's reading, and gives its reason; every wrong option says which condition of its
rules does not hold for this client. A client whom an earlier table sends on is asked about only where this
table sends them on too.

Example: `{id: g-plan, family: decision, table: plan, cases: all, objective: choose-ankle-plan}` asks
"Tern: What do you plan for this ankle?" and so on, once for each client who reaches the table.
"""

from __future__ import annotations

from typing import Literal

from builder.course import Family, Outcome
from builder.decide.explain import Explanation

from ..item import Item, ItemOption, option_id
from ..reasons import together, why_not
from ..units import rule_unit, stopping
from .family import ClientFacts, is_sent_on_before, item_id


def write(family: Family, about: ClientFacts) -> Item | None:
    table = about.course.tables[family.table]
    explanation = about.explained[family.table]
    key = explanation.decision.outcome
    if key is None or key not in table.outcomes or is_sent_on_before(table, about):
        return None
    ids = {outcome: option_id(number) for number, outcome in enumerate(table.outcomes)}
    others = explanation.others
    return Item(
        id=item_id(family, about.case),
        kind="one",
        objective=family.objective,
        stem=about.words.say("{client}: {question}", client=about.case.client.name, question=table.question),
        key=ids[key],
        right=key,
        learnt=rule_unit(explanation.decision),
        stops=tuple(ids[name] for name in stopping(table, key)),
        options=tuple(
            ItemOption(ids[name], outcome.label)
            if name == key
            else ItemOption(
                ids[name],
                outcome.label,
                why_not(about.words, about.course, about.said, others, name),
                about.acted_on[table.name].get(name),
            )
            for name, outcome in table.outcomes.items()
        ),
        why=_why(explanation, about),
        source=explanation.source,
        case=about.case.name,
        family=family.id,
        asks=table.question,
        table=table.name,
        sends=_sends(table.outcomes[key], about),
    )


def _sends(key: Outcome, about: ClientFacts) -> Literal["stopped", "referred"] | None:
    if not key.ends:
        return None
    return "stopped" if any(caution.level == "urgent" for caution in about.met) else "referred"


def _why(explanation: Explanation, about: ClientFacts) -> str:
    told = [together(about.said, explanation.checks)]
    if not explanation.checks:
        told = [about.words.say("It is for everyone who is left.")]
    if explanation.because:
        told.append(explanation.because.strip())
    return "\n\n".join(told)
