"""`casetrue explain`: every decision for one client, with its reasons."""

from __future__ import annotations

import json
from pathlib import Path

import click
from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from builder.answers import Answers
from builder.answers.sentences import Sure, acted_on, sure_of
from builder.course import COMMON_PRACTICE, FROM_MEMORY, Case, Course
from builder.decide.explain import Check, Explanation
from builder.decide.harm import ActedOn
from builder.problems.nearest import nearest_word
from builder.source import Loaded
from builder.source.kinds import CASE, CAUTION, COURSE, MEASURE, TABLE
from builder.words import ENGLISH
from builder.words import sentences as say

from .explained import document, table_of_all
from .options import console, course_option, format_option, load_course, unread, unsound

_FEW = 8
"""So many names are listed where none is near."""


@click.command("explain")
@click.argument("case_name", metavar="[CASE]", required=False)
@click.option("--all", "everyone", is_flag=True, help="Every client of the course, for other programs.")
@course_option
@format_option("json", "csv")
def command(case_name: str | None, everyone: bool, course_dir: Path, form: str) -> None:
    """Explain every decision for one client of the course, or for all of them.

    Where a measure, table or caution cannot be read, the rest is explained, and what is left out is told.

    Exit code 0: explained. 2: wrong use, no such client, or no course there.
    """
    _refuse_wrong_use(case_name, everyone, form)
    loaded = load_course(course_dir)
    answers = Answers(loaded.course)
    case = loaded.course.cases.get(case_name or "")
    if case is None and not everyone:
        raise click.UsageError(_unknown(case_name or "", course_dir, loaded))
    broken = unread(loaded, COURSE, MEASURE, TABLE, CAUTION) or unsound(answers.space)
    if broken:
        # With the answer itself, which people read; beside it, where another program does.
        told = f"Something is broken in {broken}. A decision or a caution may be missing or wrong here."
        click.echo(f"{told} `casetrue check` says what to mend.\n", err=form != "text")
    if form == "csv":
        click.echo(table_of_all(answers), nl=False)
    elif form == "json":
        everyones = loaded.course.cases.values()
        found = document(answers, case) if case else [document(answers, one) for one in everyones]
        click.echo(json.dumps(found, ensure_ascii=False, indent=2, allow_nan=False))
    elif case is not None:
        write(answers, case, console(), is_whole=not broken)


def _refuse_wrong_use(case_name: str | None, everyone: bool, form: str) -> None:
    if everyone == (case_name is not None):
        raise click.UsageError("Name one client, or ask for `--all` of them.")
    if everyone and form == "text":
        raise click.UsageError("`--all` goes with `--format json` or `--format csv`.")
    if form == "csv" and not everyone:
        raise click.UsageError("`--format csv` goes with `--all`.")


def _unknown(name: str, course_dir: Path, loaded: Loaded) -> str:
    known = sorted(loaded.course.cases)
    near = nearest_word(name, known)
    said = [f"there is no client {name} in this course."]
    if near:
        said.append(f"Did you mean {near}?")
    elif 0 < len(known) <= _FEW:
        said.append(f"Choose from: {', '.join(known)}.")
    said.append(f"All names stand at `case:` in the files of {course_dir / CASE.where}.")
    broken = unread(loaded, CASE)
    if broken:
        said.append(f"Not all clients could be read: {broken}. `casetrue check` says what to mend.")
    return " ".join(said)


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
        for outcome, answer in found.acted_on[table].items():
            if answer.harm != "none" or answer.because:
                _line(out, Text(_unsafe(answers, case, table, outcome, answer)))
        sure = sure_of(answers, case, table)
        if sure is not None:
            _write_sure(course, sure, out)
    out.print()
    none = "none" if is_whole else "not known, since something is broken"
    met = ", ".join(f"{caution.title} ({caution.level})" for caution in found.met) or none
    out.print(Text(f"Cautions met: {met}", "bold"))
    out.print(Text("For training on invented clients; not for deciding about a real person.", "dim"))


def _unsafe(answers: Answers, case: Case, table: str, outcome: str, answer: ActedOn) -> str:
    """What an answer other than the right one would have done."""
    kind = {
        "serious": "Unsafe",
        "arguable": "Unsafe, near a line",
        "minor": "Could do harm",
        "none": "Often mistaken",
    }[answer.told]
    label = say.outcome_label(answers.course, table, outcome)
    return f"{kind}: {label}. {acted_on(answers, case, answer)}"


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
