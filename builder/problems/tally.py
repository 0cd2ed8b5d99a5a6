"""How many problems there are, and how bad they are."""

from __future__ import annotations

from collections.abc import Iterable
from typing import get_args

from .problem import Problem, Severity


def by_severity(problems: Iterable[Problem], *severities: Severity) -> list[Problem]:
    """The problems of the first severity, then those of the next, each in file order."""
    ordered = sorted(problems, key=lambda problem: problem.order)
    return [problem for severity in severities for problem in ordered if problem.severity == severity]


def counts(problems: Iterable[Problem]) -> dict[str, int]:
    """How many problems of each severity."""
    severities = [problem.severity for problem in problems]
    return {severity: severities.count(severity) for severity in get_args(Severity)}


def summary(problems: Iterable[Problem]) -> str:
    """How many problems there are, in words; and that what only follows from errors is not among them."""
    found = counts(problems)
    if not any(found.values()):
        return "No problem found."
    shown = [_amount(number, severity) for severity, number in found.items() if number or severity != "hint"]
    told = " and ".join(", ".join(shown).rsplit(", ", 1))
    if not found["error"]:
        return f"{told}."
    return f"{told}. More may show once the error{'s are' if found['error'] > 1 else ' is'} mended."


def _amount(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
