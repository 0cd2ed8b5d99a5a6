from __future__ import annotations

import json
from pathlib import Path

import pytest

from builder.source import load

from ..examples.reading import GOOD


def explained(run, course: Path, case: str) -> dict:
    result = run("explain", case, "--course", course, "--format", "json")
    assert result.exit_code == 0
    return json.loads(result.stdout)


def test_json_has_the_settled_shape(run, small_course: Path):
    found = explained(run, small_course, "tern-03")
    assert list(found) == ["case", "readings", "decisions", "cautions"]
    assert found["readings"] == {
        "ankle_dorsiflexion": {"value": 32, "trials": [31, 33, 32]},
        "heel_pain": {"value": False},
        "stance": {"value": "hip"},
    }
    assert [decision["table"] for decision in found["decisions"]] == ["screen", "ankle_class", "plan"]
    for decision in found["decisions"]:
        assert list(decision) == [
            "table", "outcome", "rule", "because", "state", "chance", "undecided", "nearest",
            "needs", "needs_exact", "answers",
        ]  # fmt: skip
        assert sum(decision["chance"].values()) + decision["undecided"] == pytest.approx(1)
    assert [one["needs"] for one in found["decisions"]] == [
        [["heel_pain"]], [["ankle_dorsiflexion"]], [["ankle_dorsiflexion", "heel_pain"]]
    ]  # fmt: skip
    assert all(one["needs_exact"] for one in found["decisions"])
    klass = found["decisions"][1]
    assert (klass["outcome"], klass["rule"], klass["state"]) == ("stiff", "low", "decided")
    assert klass["because"] == "Below 35 degrees the heel lifts before the thigh is level."
    assert list(klass["chance"]) == ["stiff", "free"]
    assert klass["nearest"] == [
        {"change": {"ankle_dorsiflexion": {"from": 32, "to": 35}}, "cost": 1.5, "outcome": "free"}
    ]


def test_what_is_not_reached_has_no_outcome(run, small_course: Path):
    found = {decision["table"]: decision for decision in explained(run, small_course, "rail-06")["decisions"]}
    klass = found["ankle_class"]
    assert (klass["outcome"], klass["rule"], klass["because"], klass["state"]) == (
        None,
        None,
        None,
        "not_reached",
    )
    assert klass["nearest"] == []
    assert klass["undecided"] == 1


def test_whole_numbers_have_no_point_and_others_have_no_noise(run, course_folder):
    course = course_folder(
        {
            "course.yml": "course: c\ntitle: C\n",
            "measures.yml": """
                measures:
                  tape: {label: Tape, kind: number, unit: cm, from: 0, to: 9, step: 0.1, sem: 0}
                """,
            "cases/a.yml": "case: a\nclient: {name: A}\nreadings: {tape: [0.1, 0.2, 0.3, 0.3]}\n",
            "cases/b.yml": "case: b\nclient: {name: B}\nreadings: {tape: 3.0}\n",
        }
    )
    text = run("explain", "a", "--course", course, "--format", "json").stdout
    assert json.loads(text)["readings"] == {"tape": {"value": 0.2, "trials": [0.1, 0.2, 0.3, 0.3]}}
    assert '"value": 3,' in run("explain", "b", "--course", course, "--format", "json").stdout


def test_it_works_whenever_the_case_loads(run, small_course: Path, course_folder):
    course_folder({"tables/plan.yml": "table: [", "tables/screen.yml": "x: 1\n"}, small_course)
    result = run("explain", "tern-03", "--course", small_course, "--format", "json")
    assert result.exit_code == 0
    assert [decision["table"] for decision in json.loads(result.stdout)["decisions"]] == ["ankle_class"]
    assert "broken in tables/plan.yml, tables/screen.yml. A decision" in result.stderr


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("tables/plan.yml", "policy", "polcy"),
        ("measures.yml", "kind: number", "kind: numbr"),
        ("cautions/heel_pain_loading.yml", "level", "levl"),
        ("cautions/heel_pain_loading.yml", "heel_pain: true", "heel_pian: true"),
        ("tables/screen.yml", "then: refer_out", "then: refer_oot"),
        ("course.yml", "pathway", "patway"),
    ],
)
def test_people_are_told_first_what_may_be_missing(run, small_course: Path, file: str, old: str, new: str):
    path = small_course / file
    path.write_text(path.read_text("utf-8").replace(old, new, 1), "utf-8")
    result = run("explain", "tern-03", "--course", small_course)
    assert result.exit_code == 0
    first = result.stdout.partition("\n")[0]
    assert first.startswith("Something is broken in ")
    assert file in first
    assert "A decision or a caution may be missing or wrong here. `casetrue check` says" in first
    assert "What was found" in result.stdout
    assert "Cautions met: none" not in result.stdout


def test_a_folder_that_is_refused_is_told_first_too(run, small_course: Path, tmp_path: Path):
    cautions = small_course / "cautions"
    cautions.symlink_to(cautions.rename(tmp_path / "elsewhere"))
    result = run("explain", "tern-03", "--course", small_course)
    assert result.stdout.startswith("Something is broken in cautions.")


def test_what_the_answer_does_not_rest_on_may_be_broken(run, small_course: Path):
    (small_course / "quizzes" / "ankle-check.yml").write_text("quiz: [", "utf-8")
    result = run("explain", "tern-03", "--course", small_course)
    assert (result.exit_code, result.stderr) == (0, "")


def test_a_misspelt_client_is_guessed(run, small_course: Path):
    result = run("explain", "turn-03", "--course", small_course)
    assert result.exit_code == 2
    assert "Did you mean tern-03?" in result.stderr
    assert "plover-04" not in result.stderr
    assert f"{small_course / 'cases'}" in result.stderr.replace("\n", "")


def test_a_circle_of_tables_is_explained_as_not_reached(run, small_course: Path):
    screen = small_course / "tables" / "screen.yml"
    screen.write_text(
        screen.read_text(encoding="utf-8").replace("[heel_pain]", "[heel_pain, plan]"), encoding="utf-8"
    )
    found = explained(run, small_course, "tern-03")
    assert {decision["table"]: decision["state"] for decision in found["decisions"]} == {
        "ankle_class": "decided",
        "plan": "not_reached",
        "screen": "not_reached",
    }


@pytest.mark.parametrize("form", ["text", "json"])
def test_an_unknown_client_is_wrong_use(run, small_course: Path, form: str):
    result = run("explain", "nobody", "--course", small_course, "--format", form)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "nobody" in result.stderr
    assert "tern-03" in result.stderr


def test_text_puts_each_condition_beside_its_reading(run, small_course: Path):
    text = run("explain", "tern-03", "--course", small_course).stdout
    assert "Knee-to-wall dorsiflexion: 32° (31, 33, 32)" in text
    assert "+ Knee-to-wall dorsiflexion: 32° against below 35°: 3° under" in text
    assert "- not enough: Knee-to-wall dorsiflexion: 32° against at least 35°: 3° under" in text
    assert "- not free: it matches too, but stands lower" in text
    assert "Because: A wedge under the heels takes what the ankle does not give." in text
    assert "Source: common practice, no published source" in text
    assert "not for deciding about a real person" in text
    words = " ".join(text.split())
    assert "about 98 of 100 clients with these readings would be on this side of the lines" in words
    assert "it does not say that the choice suits them." in words
    assert "3 trials, standard error 1.15°. Error of one reading 2°, assumed: no published source." in words
    assert "One more trial would make it 1°. If the recorded value stayed the same" in words
    assert "Nearest: Knee-to-wall dorsiflexion: 35° instead of 32°. That would lead to: Free" in words


def test_a_rule_without_conditions_says_why_it_decides(run, small_course: Path):
    text = run("explain", "knot-05", "--course", small_course).stdout
    assert "Squat deep  (rule free)\n   + Nothing above fits, so this is what is left." in text


def test_text_tells_what_is_not_decided(run, small_course: Path):
    text = run("explain", "rail-06", "--course", small_course).stdout
    assert "Not reached: Knee-to-wall dorsiflexion not known." in text
    assert "Cautions met: Heel pain under load (refer)" in text


def test_every_client_of_the_examples_is_explained(run):
    for course in sorted(GOOD.iterdir()):
        for case in load(course).course.cases:
            assert explained(run, course, case)["case"] == case
            assert run("explain", case, "--course", course).exit_code == 0


def test_every_other_answer_is_told_with_what_it_would_have_done(run, small_course: Path):
    found = explained(run, small_course, "rail-06")
    assert found["cautions"] == ["heel_pain_loading"]
    screen = found["decisions"][0]
    assert screen["outcome"] == "refer_out"
    [answer] = screen["answers"].values()
    assert answer["harm"] == "serious"
    assert answer["not_stopped"] is True
    assert found["decisions"][1]["answers"] == {}, "not reached, so there is no key"


def test_an_unsafe_answer_is_told_to_people(run, small_course: Path):
    said = " ".join(run("explain", "rail-06", "--course", small_course).stdout.split())
    assert "Unsafe:" in said
    assert "nobody would have stopped this client." in said


def test_all_clients_in_one_document_or_table(run, small_course: Path):
    names = list(load(small_course).course.cases)
    whole = json.loads(run("explain", "--all", "--course", small_course, "--format", "json").stdout)
    assert [one["case"] for one in whole] == names
    assert whole[0] == explained(run, small_course, names[0])
    rows = run("explain", "--all", "--course", small_course, "--format", "csv").stdout.splitlines()
    assert rows[0] == "case,table,outcome,rule,state,chance,cautions"
    assert len(rows) == 1 + len(names) * len(whole[0]["decisions"])
    assert "rail-06,ankle_class,,,not_reached,,heel_pain_loading" in rows


@pytest.mark.parametrize(
    "asked",
    [(), ("--all",), ("tern-03", "--all"), ("tern-03", "--format", "csv"), ("--all", "--format", "text")],
)
def test_one_client_or_all_and_never_half(run, small_course: Path, asked: tuple[str, ...]):
    result = run("explain", *asked, "--course", small_course)
    assert result.exit_code == 2
    assert result.stdout == ""
