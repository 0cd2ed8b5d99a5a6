"""Problems as one JSON document."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping

from .problem import Problem, Scalar
from .tally import counts

Entry = dict[str, str | int | Mapping[str, Scalar]]


def write_json(problems: Iterable[Problem]) -> str:
    """`{"problems": [...], "counts": {"error": n, "warning": n}}`, in file order; `hint` is counted where
    there are any."""
    ordered = sorted(problems, key=lambda problem: problem.order)
    document = {"problems": [entry(problem) for problem in ordered], "counts": _counted(ordered)}
    return json.dumps(document, ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def entry(problem: Problem) -> Entry:
    """One problem; `example` only where there is one."""
    found: Entry = {
        "code": problem.code,
        "severity": problem.severity,
        "subject": problem.subject,
        "file": problem.file,
        "line": problem.line,
        "column": problem.column,
        "message": problem.message,
        "hint": problem.hint,
    }
    if problem.example is not None:
        found["example"] = dict(problem.example)
    return found


def _counted(problems: Iterable[Problem]) -> dict[str, int]:
    return {severity: number for severity, number in counts(problems).items() if number or severity != "hint"}
