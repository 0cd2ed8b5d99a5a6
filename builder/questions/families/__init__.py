"""Families: the builder writes one question per client, or those about a drill.

One file a family; its docstring is its page.
"""

from __future__ import annotations

from collections.abc import Mapping

from . import decision, fault, other_finding, retest, sequence
from .family import AskedClient, ClientFacts, DrillWriter, Writer

FAMILIES: Mapping[str, Writer] = {
    "decision": decision.write,
    "other_finding": other_finding.write,
    "retest": retest.write,
}
"""Asked about a client and a table."""

DRILL_FAMILIES: Mapping[str, DrillWriter] = {
    "fault": fault.write,
    "sequence": sequence.write,
}
"""Asked about a drill."""

__all__ = [
    "DRILL_FAMILIES",
    "FAMILIES",
    "AskedClient",
    "ClientFacts",
    "DrillWriter",
    "Writer",
]
