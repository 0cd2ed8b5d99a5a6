"""Families: the builder writes one question per client, or those about a drill.

One file a family; its docstring is its page. All of them fill the frame of `questions/frame.py`.
"""

from __future__ import annotations

from collections.abc import Mapping

from builder.course import Family, QuestionKind

from ..frame import ClientFacts, DrillFacts, Frame
from . import (
    because,
    caution,
    decision,
    fault,
    line,
    look,
    needs,
    other_finding,
    read_off,
    retest,
    said,
    sequence,
)

FAMILIES: Mapping[str, Frame[ClientFacts]] = {
    "decision": decision.FRAME,
    "because": because.FRAME,
    "line": line.FRAME,
    "other_finding": other_finding.FRAME,
    "caution": caution.FRAME,
    "retest": retest.FRAME,
    "needs": needs.FRAME,
    "said": said.FRAME,
    "read_off": read_off.FRAME,
}
"""Asked about clients."""

DRILL_FAMILIES: Mapping[str, Frame[DrillFacts]] = {
    "fault": fault.FRAME,
    "sequence": sequence.FRAME,
    "look": look.FRAME,
}
"""Asked about a drill."""


def kind_of(family: Family) -> QuestionKind:
    """The kind of question that a family makes."""
    kinds: Mapping[str, QuestionKind] = {"sequence": "order", "read_off": "number"}
    return kinds.get(family.family, "one")


__all__ = ["DRILL_FAMILIES", "FAMILIES", "kind_of"]
