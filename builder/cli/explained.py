"""What `casetrue explain` prints for other programs: one document a client, or a table of all."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from builder.answers import Answers
from builder.checks import plain
from builder.course import Case, Reading, Table
from builder.decide.doubt import Chance
from builder.decide.explain import Explanation
from builder.decide.grid import Value
from builder.decide.harm import ActedOn
from builder.decide.nearest import Change

COLUMNS = ("case", "table", "outcome", "rule", "state", "chance", "cautions")


def document(answers: Answers, case: Case) -> dict[str, object]:
    """What `--format json` prints; its shape is settled in the course format."""
    client, names = answers.of(case), (name for name in answers.course.measures if name in case.readings)
    return {
        "case": case.name,
        "readings": {name: _reading(case.readings[name], client.found.values.get(name)) for name in names},
        "decisions": [
            _decision(explanation)
            | _doubt(answers.course.tables[table], client.chances.get(table))
            | {"nearest": _nearest(client.nearest[table]) if table in answers.space.tables else []}
            | {"needs": [list(one) for one in client.needs[table].sets]}
            | {"needs_exact": client.needs[table].exact}
            | {"answers": {name: _acted_on(one) for name, one in client.acted_on[table].items()}}
            for table, explanation in client.explained.items()
        ],
        "cautions": [caution.name for caution in client.met],
    }


def _acted_on(answer: ActedOn) -> dict[str, object]:
    return {
        "harm": answer.harm,
        "breaks": [
            {"caution": one.caution, "table": one.table, "outcome": one.outcome} for one in answer.breaks
        ],
        "not_stopped": answer.not_stopped,
        "overcautious": answer.overcautious,
    }


def _reading(reading: Reading, value: Value | None) -> dict[str, object]:
    found: dict[str, object] = {"value": None if value is None else plain(value)}
    if reading.trials:
        found["trials"] = [plain(trial) for trial in reading.trials]
    return found


def _decision(explanation: Explanation) -> dict[str, object]:
    decision = explanation.decision
    return {
        "table": decision.table,
        "outcome": decision.outcome,
        "rule": decision.rule.id if decision.rule else None,
        "because": explanation.because,
        "state": decision.state,
    }


def _doubt(table: Table, chance: Chance | None) -> dict[str, object]:
    """How sure each outcome is; of a table that is not well-formed nothing is known."""
    if chance is None:
        return {"chance": dict.fromkeys(table.outcomes, 0.0), "undecided": 1.0}
    return {"chance": dict(chance.chance), "undecided": chance.undecided}


def _nearest(changes: Iterable[Change]) -> list[dict[str, object]]:
    return [
        {
            "change": {name: {"from": plain(was), "to": plain(to)} for name, (was, to) in one.change.items()},
            "cost": plain(one.cost),
            "outcome": one.outcome,
        }
        for one in changes
    ]


def table_of_all(answers: Answers) -> str:
    """Every decision for every client, a row each, as CSV (RFC 4180): the chance is that of the outcome, and
    the cautions met stand in one cell with spaces between."""
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\r\n")
    rows.writerow(COLUMNS)
    for name, client in answers.clients.items():
        met = " ".join(caution.name for caution in client.met)
        for table, decision in client.decisions.items():
            chance = client.chance_of_key(table)
            rule = decision.rule.id if decision.rule else ""
            sure = "" if chance is None else repr(chance)
            rows.writerow((name, table, decision.outcome or "", rule, decision.state, sure, met))
    return out.getvalue()
