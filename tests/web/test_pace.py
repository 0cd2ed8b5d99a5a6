"""The pacer's law, run by Node, and the same bounds where a course is written."""

from __future__ import annotations

import re
from pathlib import Path

from builder.course import MOST_BREATHS, MOST_PAUSE
from builder.source.schemas import written_out

from ..node import run_node_tests

HERE = Path(__file__).parent
WEB = HERE.parents[1] / "builder" / "site" / "web"


def test_the_law_of_pace() -> None:
    run_node_tests(HERE / "pace.test.js", 7)


def test_schema_model_and_browser_have_the_same_bounds() -> None:
    breath = written_out("drill.schema.json#/$defs/breath")["properties"]
    law = (WEB / "pace.js").read_text("utf-8")
    for key, name, most in (("pause", "MOST_PAUSE", MOST_PAUSE), ("breaths", "MOST_BREATHS", MOST_BREATHS)):
        assert breath[key]["maximum"] == most
        assert re.search(rf"export const {name} = {most};", law)
    for key, variable in (("out", "out"), ("in", "into")):
        low, high = breath[key]["minimum"], breath[key]["maximum"]
        assert f"const {variable} = within(lengths.{key}, {low}, {high});" in law
