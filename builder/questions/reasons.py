"""Why an answer does not hold for a client: this client's finding beside the condition that it lacks."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from builder.course import Course
from builder.decide.explain import Check, OtherRule
from builder.words import sentences

from .wording import Wording

Said = Callable[[Check], str]
"""A condition beside what was found, in words."""


def why_not(wording: Wording, course: Course, said: Said, others: Iterable[OtherRule], outcome: str) -> str:
    """Why an outcome other than the key does not hold, as prose: what the rule nearest to it lacks.
    `others` are the rules that did not count."""
    rules = [other for other in others if other.rule.then == outcome]
    if not rules:
        return wording.text("nobody")
    nearest = min(rules, key=lambda other: len(other.failed))
    if nearest.failed:
        return together(said, nearest.failed)
    if not nearest.rule.when:
        return wording.text("left-but-later")
    asked = sentences.when(wording.words, course, nearest.rule.when)
    return wording.text("fits-but-later", asked=asked)


def together(said: Said, checks: Iterable[Check]) -> str:
    """Conditions beside what was found, as sentences."""
    return " ".join(f"{said(check)}." for check in checks)
