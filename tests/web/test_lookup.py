"""The pure modules of search and of the list of clients, run by Node."""

from __future__ import annotations

from pathlib import Path

from ..node import run_node_tests


def test_the_pure_modules_of_looking_up() -> None:
    run_node_tests(Path(__file__).with_name("lookup.test.js"), 7)
