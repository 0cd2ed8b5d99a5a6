"""The units that are learnt, by name. Clients and questions carry them; a record counts by them.

A rule is `table/rule`. All others say first what they are: `question:q-one` (a written question),
`step:first-visit/x` (an authored step of an exercise), `fault:drill/fault`, `phase:drill/phase` (a sound
one), `order:drill`, `retest:measure`, `reading:measure`.
"""

from __future__ import annotations

from builder.course import Table
from builder.decide.evaluate import Decision


def rule_unit(decision: Decision) -> str:
    """The rule that counts; empty where none does."""
    return f"{decision.table}/{decision.rule.id}" if decision.rule else ""


def fault_unit(drill: str, fault: str) -> str:
    return f"fault:{drill}/{fault}"


def phase_unit(drill: str, phase: str) -> str:
    """To see that nothing is off."""
    return f"phase:{drill}/{phase}"


def stopping(table: Table, key: str) -> tuple[str, ...]:
    """Where the right answer sends the client on: every outcome that does."""
    if not table.outcomes[key].ends:
        return ()
    return tuple(name for name, outcome in table.outcomes.items() if outcome.ends)


def caution_unit(caution: str) -> str:
    """A caution to be noticed; without one, that none asks for more than going on."""
    return f"caution:{caution}"


def reading_unit(measure: str) -> str:
    """What a client's words come to, or a drawing shows."""
    return f"reading:{measure}"
