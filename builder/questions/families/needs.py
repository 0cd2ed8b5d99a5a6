"""Asks which readings are enough to decide about a client, and no more than enough.

The right answer is a set of measures with which everybody who answers alike comes to the same outcome, and of
which nothing can be left out, at the least time. Wrong ones lack a reading of it, or hold one too many. There
is no question about a client whom an earlier table sends on while this one does not, nor where nothing need
be known.

Example: `{id: g-enough, family: needs, table: plan, cases: all, objective: choose-ankle-plan}` asks "Tern:
What do you do first? With these readings, which of them are enough to know the answer, and no more?"
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.course import Family

from ..frame import Answer, ClientFacts, Draft, Frame, Says, is_sent_on_before
from ..units import rule_unit

WRONG = 3


def drafts(family: Family, about: ClientFacts) -> Iterator[Draft]:
    table, decision = about.course.tables[family.table], about.explained[family.table].decision
    key = about.outcome(table.name)
    if key is None or table.name not in about.well_formed or is_sent_on_before(table, about):
        return
    needs, asking = about.weighed.needs[table.name], about.weighed.asking[table.name]
    best = next((one for one in needs.sets if one), ())
    if not best or not needs.exact or asking is None:
        return
    text, measures = about.wording.text, about.course.measures

    def listed(names: frozenset[str]) -> str:
        return "; ".join(one.label for one in measures.values() if one.name in names)

    lacking = [
        Answer(one, listed(one), text("needs-lacks", measure=measures[left].label))
        for left in best
        if (one := frozenset(best) - {left})
    ]
    read = [name for one in asking.differing for name in one]
    spare = dict.fromkeys(name for name in (*read, *measures) if name in about.case.readings)
    too_many = [
        Answer(one, listed(one), text("needs-more", measure=measures[name].label))
        for name in spare
        if name not in best
        for one in (frozenset((*best, name)),)
    ]
    # One of each kind first, so that neither counting nor length gives the answer away.
    mixed = [one for pair in zip(lacking, too_many, strict=False) for one in pair]
    rest = [one for one in (*lacking, *too_many) if one not in mixed]
    yield Draft(
        of=about.case.name,
        stem=text("needs-stem", client=about.case.client.name, question=table.question),
        right=Answer(frozenset(best), listed(frozenset(best))),
        wrong=(*mixed, *rest),
        why=text("needs-why", outcome=table.outcomes[key].label),
        learnt=rule_unit(decision),
        asks=text("needs-list", question=table.question),
        source=table.source,
        case=about.case.name,
        table=table.name,
        right_name=", ".join(best),
    )


def holds(family: Family, about: ClientFacts, says: Says) -> bool:
    """Whether it has a measure of every set in which somebody with another outcome differs, and does so with
    none of its own left out."""
    asking = about.weighed.asking[family.table]
    if asking is None or not isinstance(says, frozenset):
        return False

    def is_enough(names: frozenset[str]) -> bool:
        return all(not names.isdisjoint(one) for one in asking.differing)

    return is_enough(says) and not any(is_enough(says - {name}) for name in says)


FRAME = Frame(("table", "cases"), drafts, holds, most_wrong=WRONG)
