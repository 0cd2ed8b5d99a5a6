from __future__ import annotations

import json
from pathlib import Path


def test_json_lists_what_no_client_reaches(run, small_course: Path):
    result = run("cover", "--course", small_course, "--format", "json")
    assert result.exit_code == 0
    found = json.loads(result.stdout)
    assert list(found) == ["clients", "rules", "outcomes", "cautions", "lines"]
    assert found["rules"] == [{"table": "plan", "rule": "sent_on", "possible": True}]
    assert found["outcomes"] == [{"table": "plan", "outcome": "refer_out"}]
    (line,) = found["lines"]
    assert (line["measure"], line["at"], line["drawn_by"]) == ("ankle_dorsiflexion", 34.5, ["ankle_class"])


def test_text_says_the_same_in_words(run, small_course: Path):
    result = run("cover", "--course", small_course)
    assert result.exit_code == 0
    assert "Rules that decide no client: 1\n   plan: sent_on" in result.stdout
    assert "Knee-to-wall dorsiflexion at 34.5°" in result.stdout


def test_no_course_is_wrong_use(run, tmp_path: Path):
    assert run("cover", "--course", tmp_path).exit_code == 2
