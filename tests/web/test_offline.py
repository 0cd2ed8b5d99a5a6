"""Keeping a course and answering from the copy, run by Node."""

from __future__ import annotations

from pathlib import Path

from ..node import run_node_tests


def test_the_laws_of_a_kept_copy() -> None:
    run_node_tests(Path(__file__).parent / "offline.test.js", 24)
