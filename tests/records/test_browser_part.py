"""The browser's modules on the tables of cases, and the chances' own referee."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from ..node import run_node_tests
from .readiness import TABLE, cases

HERE = Path(__file__).parent

RIDGE = {"week": [20, 40], "year": [5, 10]}
"""Reference value spacing-ridge: best gap in per cent of the time to the test.
Source: Cepeda et al., Psychol Sci 2008;19(11):1095-1102, abstract."""


def test_the_browser_counts_as_the_tables_say() -> None:
    run_node_tests(HERE / "browser_part.test.js", 10, RIDGE=json.dumps(RIDGE))


def test_the_table_of_chances_is_scipys() -> None:
    written = json.loads(TABLE.read_text("utf-8"))
    computed = cases()
    assert len(written) == len(computed)
    for one, other in zip(written, computed, strict=True):
        assert (one["rows"], one["pass_mark"]) == (other["rows"], other["pass_mark"])
        assert one["chance"] == pytest.approx(other["chance"], abs=1e-10)
