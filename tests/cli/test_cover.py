from __future__ import annotations

import json
from pathlib import Path

import pytest


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
    assert "Knee-to-wall dorsiflexion between 34 and 35° (ankle_class): nearest" in result.stdout


@pytest.mark.parametrize("form", ["text", "json"])
@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("tables/plan.yml", "policy", "polcy"),
        ("tables/plan.yml", "inputs: [screen", "inputs: [scren"),
        ("measures.yml", "kind: number", "kind: numbr"),
        ("cautions/heel_pain_loading.yml", "level", "levl"),
        ("cautions/heel_pain_loading.yml", "heel_pain: true", "heel_pian: true"),
        ("cases/clients.yml", "client: {name: Rail", "clint: {name: Rail"),
    ],
)
def test_nothing_is_counted_of_what_is_broken(
    run, small_course: Path, file: str, old: str, new: str, form: str
):
    path = small_course / file
    path.write_text(path.read_text("utf-8").replace(old, new, 1), "utf-8")
    result = run("cover", "--course", small_course, "--format", form)
    assert result.exit_code == 1
    assert set(json.loads(result.stdout)) if form == "json" else not result.stdout
    assert file in result.stderr
    assert "casetrue check" in result.stderr


def test_what_it_does_not_rest_on_may_be_broken(run, small_course: Path):
    (small_course / "quizzes" / "ankle-check.yml").write_text("quiz: [", "utf-8")
    assert run("cover", "--course", small_course).exit_code == 0


def test_no_course_is_wrong_use(run, tmp_path: Path):
    assert run("cover", "--course", tmp_path).exit_code == 2
