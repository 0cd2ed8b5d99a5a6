"""Asks for the reason of a client's outcome.

The right answer is the reason of the rule that counts; wrong ones are the reasons of rules that do not match
this client, those first that lack least. Each says what it lacks. A rule without a reason is never asked
about, and a reason that two rules share is left out where either matches. There is no question about a client
whom an earlier table sends on while this one does not.

Example: `{id: g-why, family: because, table: plan, cases: all, objective: choose-ankle-plan}` asks "Tern:
What do you do first? The answer is: Raise the heels. Why?"
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Family
from builder.decide.evaluate import matches
from builder.decide.explain import OtherRule

from ..corrections import folded
from ..frame import Answer, ClientFacts, Draft, Frame, Says, chance_of_key, is_sent_on_before
from ..reasons import together
from ..units import rule_unit

FEWEST_WRONG = 2
WRONG = 3


def drafts(family: Family, about: ClientFacts) -> Iterator[Draft]:
    table, explanation = about.course.tables[family.table], about.explained[family.table]
    key, rule = about.outcome(table.name), explanation.decision.rule
    if key is None or rule is None or not rule.because or is_sent_on_before(table, about):
        return
    label = table.outcomes[key].label

    def wrong(other: OtherRule) -> Answer:
        lacks = together(about.said, other.failed)
        if other.rule.then == key:
            why = about.wording.text("because-same", lacks=lacks)
        else:
            why = about.wording.text(
                "because-other", outcome=table.outcomes[other.rule.then].label, lacks=lacks
            )
        reason = (other.rule.because or "").strip()
        return Answer(folded(reason), reason, why)

    others = [
        one
        for one in explanation.others
        if one.failed and one.rule.because and one.rule.then in table.outcomes
    ]
    yield Draft(
        of=about.case.name,
        stem=about.wording.text(
            "because-stem", client=about.case.client.name, question=table.question, outcome=label
        ),
        right=Answer(folded(rule.because), rule.because.strip()),
        wrong=tuple(wrong(one) for one in sorted(others, key=lambda one: len(one.failed))),
        why=together(about.said, explanation.checks) or about.wording.text("decision-rest"),
        learnt=rule_unit(explanation.decision),
        asks=about.wording.text("because-list", question=table.question),
        source=explanation.source,
        case=about.case.name,
        table=table.name,
    )


def holds(family: Family, about: ClientFacts, says: Says) -> bool:
    """Whether it is the reason of some rule that matches the client."""
    table = about.course.tables[family.table]
    values = {name: one.decision.outcome for name, one in about.explained.items() if one.decision.outcome}
    known = {**values, **about.found.values}
    return any(folded(rule.because or "") == says and matches(rule.when, known) for rule in table.rules)


FRAME = Frame(("table", "cases"), drafts, holds, FEWEST_WRONG, WRONG, chance_of_key)
