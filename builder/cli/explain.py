"""`casetrue explain`: every decision for one client, with its reasons."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path

import click
from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from builder.answers import Answers
from builder.answers.sentences import Sure, sure_of
from builder.checks import plain
from builder.course import COMMON_PRACTICE, FROM_MEMORY, Case, Course, Reading, Table
from builder.decide.doubt import Chance
from builder.decide.explain import Check, Explanation
from builder.decide.grid import Value
from builder.decide.harm import ActedOn
from builder.decide.nearest import Change
from builder.problems.nearest import nearest_words
from builder.source import Loaded
from builder.source.kinds import CASE, CAUTION, COURSE, MEASURE, TABLE
from builder.words import ENGLISH
from builder.words import sentences as say

from .options import console, course_option, format_option, load_course, unread, unsound

_FEW = 8
"""So many names are listed where none is near."""


@click.command("explain")
@click.argument("case_name", metavar="CASE")
@course_option
@format_option("json")
def command(case_name: str, course_dir: Path, form: str) -> None:
    """Explain every decision for one client of the course.

    Where a measure, table or caution cannot be read, the rest is explained, and what is left out is told.

    Exit code 0: explained. 2: wrong use, no such client, or no course there.
    """
    loaded = load_course(course_dir)
    course = loaded.course
    case = course.cases.get(case_name)
    if case is None:
        raise click.UsageError(_unknown(case_name, course_dir, loaded))
    answers = Answers(course)
    broken = unread(loaded, COURSE, MEASURE, TABLE, CAUTION) or unsound(answers.space)
    if broken:
        # With the answer itself, which people read; beside it, where another program does.
        told = f"Something is broken in {broken}. A decision or a caution may be missing or wrong here."
        click.echo(f"{told} `casetrue check` says what to mend.\n", err=form == "json")
    if form == "json":
        click.echo(json.dumps(document(answers, case), ensure_ascii=False, indent=2, allow_nan=False))
    else:
        write(answers, case, console(), is_whole=not broken)


def _unknown(name: str, course_dir: Path, loaded: Loaded) -> str:
    known = sorted(loaded.course.cases)
    near = nearest_words(name, known)
    said = [f"there is no client {name} in this course."]
    if near:
        said.append(f"Did you mean {near[0]}?")
    elif 0 < len(known) <= _FEW:
        said.append(f"Choose from: {', '.join(known)}.")
    said.append(f"All names stand at `case:` in the files of {course_dir / CASE.where}.")
    broken = unread(loaded, CASE)
    if broken:
        said.append(f"Not all clients could be read: {broken}. `casetrue check` says what to mend.")
    return " ".join(said)


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


def write(answers: Answers, case: Case, out: Console, is_whole: bool) -> None:
    """Prints the readings, every table in pathway order with its reasons, and the cautions that are met."""
    course, client, found = answers.course, case.client, answers.of(case)
    age = f", {client.age}" if client.age is not None else ""
    out.print(Text(f"{client.name}{age} ({case.name})", "bold"))
    if client.about:
        out.print(Text(client.about))
    out.print()
    out.print(Text("What was found", "bold"))
    for name, measure in course.measures.items():
        if name in case.readings:
            shown = say.reading(ENGLISH, measure, case.readings[name], found.found.values.get(name))
            _line(out, Text(f"{measure.label}: {shown}"))
    for number, (table, explanation) in enumerate(found.explained.items(), 1):
        out.print()
        _table(course, number, explanation, out)
        sure = sure_of(answers, case, table)
        if sure is not None:
            _write_sure(course, sure, out)
    out.print()
    none = "none" if is_whole else "not known, since something is broken"
    met = ", ".join(f"{caution.title} ({caution.level})" for caution in found.met) or none
    out.print(Text(f"Cautions met: {met}", "bold"))
    out.print(Text("For training on invented clients; not for deciding about a real person.", "dim"))


def _table(course: Course, number: int, explanation: Explanation, out: Console) -> None:
    decision = explanation.decision
    out.print(Text(f"{number}. {course.tables[decision.table].question}", "bold"))
    if decision.rule is not None and decision.outcome is not None:
        label = say.outcome_label(course, decision.table, decision.outcome)
        _line(out, Text.assemble(("Outcome: ", "dim"), (label, "bold"), f"  (rule {decision.rule.id})"))
        for check in explanation.checks:
            _line(out, Text("+ " + _sentence(course, check)))
        if not explanation.checks:
            _line(out, Text("+ " + say.otherwise(ENGLISH)))
    else:
        _line(out, Text(_undecided(course, explanation), "bold"))
    if explanation.because:
        _line(out, Text.assemble(("Because: ", "dim"), explanation.because))
    if explanation.source:
        _line(out, Text.assemble(("Source: ", "dim"), source_line(course, explanation.source)))
    for other in explanation.others:
        if other.failed:
            first = _sentence(course, other.failed[0])
            _line(out, Text(f"- not {other.rule.id}: {first}", "dim"))
        elif decision.state == "decided":
            _line(out, Text(f"- not {other.rule.id}: it matches too, but stands lower", "dim"))
        else:
            _line(out, Text(f"- {other.rule.id}: it matches", "dim"))


def _write_sure(course: Course, sure: Sure, out: Console) -> None:
    """How sure the outcome is, what one more trial would do, and the nearest other readings."""
    _line(out, Text.assemble(("How sure: ", "dim"), sure.said))
    for error in sure.errors:
        source = f" {source_line(course, error.source)}." if error.source else ""
        _line(out, Text(f"  {error.said} {error.origin}{source} {error.one_more}".rstrip()))
    for change in sure.changes:
        _line(out, Text.assemble(("Nearest: ", "dim"), change))


def _undecided(course: Course, explanation: Explanation) -> str:
    decision = explanation.decision
    match decision.state:
        case "gap":
            return "No outcome: no rule matches this client."
        case "overlap":
            return f"No outcome: the rules {' and '.join(decision.matched)} match at once, and only one may."
        case _:
            missing = ", ".join(say.label(course, name) for name in decision.missing)
            return f"Not reached: {missing or 'its inputs'} not known." if missing else "Not reached."


def _sentence(course: Course, check: Check) -> str:
    return say.check(ENGLISH, course, check.input, check.condition, check.found)


def source_line(course: Course, source: str) -> str:
    """A source by its title, or in words what stands in for one."""
    if source == COMMON_PRACTICE:
        return "common practice, no published source"
    if source == FROM_MEMORY:
        return "from memory, not looked up"
    title = course.sources[source].item.get("title") if source in course.sources else None
    return f"{title} ({source})" if title else source


def _line(out: Console, text: Text) -> None:
    out.print(Padding(text, (0, 0, 0, 3), expand=False))
