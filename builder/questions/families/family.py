"""What a family of questions is given, and what it must be."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from builder.course import Case, Course, Family
from builder.decide.explain import Explanation
from builder.words import Words

from ..item import Item


@dataclass(frozen=True, slots=True)
class About:
    """One client, with all that a family may need to ask about them."""

    course: Course
    case: Case
    explained: Mapping[str, Explanation]
    """By table."""
    words: Words


Writer = Callable[[Family, About], Item | None]
"""Writes a family's question about one client; None where there is nothing to ask about them."""


def item_id(family: Family, case: Case) -> str:
    return f"{family.id}.{case.name}"
