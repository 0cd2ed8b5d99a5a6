"""How many problems there are."""

from __future__ import annotations

from collections.abc import Iterable

from .problem import Problem


def counts(problems: Iterable[Problem]) -> dict[str, int]:
    """How many problems of each severity."""
    severities = [problem.severity for problem in problems]
    return {"error": severities.count("error"), "warning": severities.count("warning")}


def summary(problems: Iterable[Problem]) -> str:
    """How many problems there are, in words."""
    found = counts(problems)
    if not any(found.values()):
        return "No problem found."
    return " and ".join(_amount(number, severity) for severity, number in found.items()) + "."


def _amount(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
