"""Why an answer does not hold for a client: this client's finding beside the condition that it lacks."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from builder.course import Course
from builder.decide.explain import Check, OtherRule
from builder.words import Words, sentences

Said = Callable[[Check], str]
"""A condition beside what was found, in words."""


def why_not(words: Words, course: Course, said: Said, others: Iterable[OtherRule], outcome: str) -> str:
    """Why an outcome other than the key does not hold, as prose; `others` are the rules that did not
    count."""
    rules = [other for other in others if other.rule.then == outcome]
    if not rules:
        return words.say("No rule of this table leads here.")
    reasons = list(dict.fromkeys(_why_rule_not(words, course, said, rule) for rule in rules))
    if len(reasons) == 1:
        return reasons[0]
    lead = words.say("Several rules lead here, and none of them counts:")
    return "\n".join([lead, "", *(f"- {reason}" for reason in reasons)])


def together(said: Said, checks: Iterable[Check]) -> str:
    """Conditions beside what was found, as sentences."""
    return " ".join(f"{said(check)}." for check in checks)


def _why_rule_not(words: Words, course: Course, said: Said, other: OtherRule) -> str:
    """What does not hold for the client; of a rule that matches too, what it asks for."""
    if other.failed:
        return together(said, other.failed)
    return words.say(
        "A rule for this also matches ({asked}), but a rule further up counts first.",
        asked=sentences.when(words, course, other.rule.when),
    )
