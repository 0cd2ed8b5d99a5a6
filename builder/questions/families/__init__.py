"""Families: the builder writes one question per client. One file a family; its docstring is its page."""

from __future__ import annotations

from collections.abc import Mapping

from . import decision
from .family import About, Writer, item_id

FAMILIES: Mapping[str, Writer] = {
    "decision": decision.write,
}

__all__ = ["FAMILIES", "About", "Writer", "item_id"]
