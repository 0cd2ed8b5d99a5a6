"""Problems as workflow commands, which code hosts show beside the changed lines."""

from __future__ import annotations

from collections.abc import Iterable

from .printable import printable
from .problem import Problem, Severity
from .tally import by_severity, summary

_COMMANDS: dict[Severity, str] = {"error": "error", "warning": "warning", "hint": "notice"}


def write_workflow(problems: Iterable[Problem], folder: str = "") -> str:
    """One `::error`, `::warning` or `::notice` line a problem, errors first, since hosts show only about ten
    of a kind; then the total. `folder` is the course's path below the repository."""
    ordered = by_severity(problems, "error", "warning", "hint")
    lines = [_command(problem, folder) for problem in ordered]
    lines.append(f"::notice::{summary(ordered)}")
    return "\n".join(lines) + "\n"


def _command(problem: Problem, folder: str) -> str:
    file = "/".join(part for part in (folder.rstrip("/"), problem.file) if part)
    properties = {"file": file, "line": problem.line, "col": problem.column, "title": problem.code}
    listed = ",".join(f"{name}={_property(str(value))}" for name, value in properties.items())
    text = f"{problem.message} {problem.hint}".strip()
    return f"::{_COMMANDS[problem.severity]} {listed}::{_message(text)}"


def _message(text: str) -> str:
    return printable(text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A"))


def _property(text: str) -> str:
    return _message(text).replace(":", "%3A").replace(",", "%2C")
