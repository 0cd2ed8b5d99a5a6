"""Asks for a client's outcome of one table.

The options are the table's outcomes in the order written. The explanation puts each condition of the rule
that counts beside the client's reading, and gives its reason; every wrong option says which condition of its
rules does not hold for this client. A client whom an earlier table sends on is asked about only where this
table sends them on too.

Example: `{id: g-plan, family: decision, table: plan, cases: all, objective: choose-ankle-plan}` asks
"Tern: What do you plan for this ankle?" and so on, once for each client who reaches the table.
"""

from __future__ import annotations

from collections.abc import Iterable

from builder.course import Family
from builder.decide.explain import Check, Explanation, OtherRule
from builder.words import sentences

from ..item import Item, ItemOption, option_id
from .family import ClientFacts, is_sent_on_before, item_id


def write(family: Family, about: ClientFacts) -> Item | None:
    table = about.course.tables[family.table]
    explanation = about.explained[family.table]
    key = explanation.decision.outcome
    if key is None or key not in table.outcomes or is_sent_on_before(table, about):
        return None
    ids = {outcome: option_id(number) for number, outcome in enumerate(table.outcomes)}
    return Item(
        id=item_id(family, about.case),
        kind="one",
        objective=family.objective,
        stem=about.words.say("{client}: {question}", client=about.case.client.name, question=table.question),
        key=ids[key],
        right=key,
        options=tuple(
            ItemOption(ids[name], outcome.label, "" if name == key else _why_not(name, explanation, about))
            for name, outcome in table.outcomes.items()
        ),
        why=_why(explanation, about),
        source=explanation.source,
        case=about.case.name,
        family=family.id,
        asks=table.question,
        table=table.name,
    )


def _why(explanation: Explanation, about: ClientFacts) -> str:
    said = [_said(explanation.checks, about)]
    if not explanation.checks:
        said = [about.words.say("The rule that counts asks for nothing: it takes whoever is left.")]
    if explanation.because:
        said.append(explanation.because.strip())
    return "\n\n".join(said)


def _why_not(outcome: str, explanation: Explanation, about: ClientFacts) -> str:
    rules = [other for other in explanation.others if other.rule.then == outcome]
    if not rules:
        return about.words.say("No rule of this table leads here.")
    reasons = list(dict.fromkeys(_why_rule_not(rule, about) for rule in rules))
    if len(reasons) == 1:
        return reasons[0]
    lead = about.words.say("Several rules lead here, and none of them counts:")
    return "\n".join([lead, "", *(f"- {reason}" for reason in reasons)])


def _why_rule_not(other: OtherRule, about: ClientFacts) -> str:
    """What does not hold for the client; of a rule that matches too, what it asks for."""
    if other.failed:
        return _said(other.failed, about)
    return about.words.say(
        "A rule for this also matches ({asked}), but a rule further up counts first.",
        asked=sentences.when(about.words, about.course, other.rule.when),
    )


def _said(checks: Iterable[Check], about: ClientFacts) -> str:
    return " ".join(
        sentences.check(about.words, about.course, check.input, check.condition, check.found) + "."
        for check in checks
    )
