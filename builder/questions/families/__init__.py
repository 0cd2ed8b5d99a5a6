"""Families: the builder writes one question per client. One file a family; its docstring is its page."""

from __future__ import annotations

from collections.abc import Mapping

from . import decision, other_finding, retest
from .family import About, Writer, measures_behind

FAMILIES: Mapping[str, Writer] = {
    "decision": decision.write,
    "other_finding": other_finding.write,
    "retest": retest.write,
}

__all__ = ["FAMILIES", "About", "Writer", "measures_behind"]
