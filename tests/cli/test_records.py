"""`casetrue records`: one table for the gym owner."""

from __future__ import annotations

import csv
import io
import json
import re
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from builder.answers import Answers
from builder.cli.main import casetrue
from builder.cli.spreadsheet import cell
from builder.source import load

from ..conftest import ANKLE
from ..records.make import attempt, old, quiz, raw, record, step, walk

WREN = raw(
    attempt("a-one", 1),
    attempt("a-number", 2, mark=0),
    quiz(0.5, False, 3),
    quiz(0.8333333, True, 4, draw=7),
    quiz(1, True, 5, draw=7),
    walk(second=5, harm="serious", passed=False, mark=0.5),
    walk(second=6),
    step(
        "first-visit/rail-06/screen",
        7,
        mark=0,
        harm="serious",
        breaks=["heel_pain_loading"],
        client="rail-06",
        stopped=False,
        sitting="0" * 8,
        objective="",
    ),
    attempt("a-several", 8, mark=0, sure=3, harm="none"),
    learner="Wren Hollis",
    device="0a1b2c3d4e5f6071",
    stopped={"crake-07": True},
    version="1.0",
    build="0a1b2c3d",
)


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(casetrue, ["records", *map(str, arguments), "--course", str(ANKLE)])


@pytest.fixture
def wren(tmp_path: Path) -> Path:
    (tmp_path / "wren.json").write_bytes(WREN)
    return tmp_path / "wren.json"


def test_one_short_row_a_learner(wren: Path, tmp_path: Path) -> None:
    (tmp_path / "nobody.json").write_bytes(raw())
    result = run(wren, tmp_path / "nobody.json")
    assert result.exit_code == 0, result.output
    lines = result.stdout.splitlines()
    assert max(map(len, lines)) <= 80
    assert [" ".join(line.split()) for line in lines[:5]] == [
        "Ankles and squats",
        "Quizzes",
        "Learner Last day Stopped Unsafe passed Right at first",
        "(no name: nobody.json) never none met none 0 of 2 none tried",
        "Wren Hollis 2026-06-01 1 of 2 1 0 of 2 1 of 3, 6 to 79%",
    ]
    assert "no certificates" in result.stdout
    assert "--details" in result.stdout
    assert result.stderr == ""


def test_details_follow_on_request(wren: Path) -> None:
    told = " ".join(run(wren, "--details").stdout.split())
    for part in (
        "Wren Hollis Saved from: version 1.0 build 0a1b2c3d Stopped 1 of 2, and not: Rail",
        "Rail, first-visit/rail-06/screen on 2026-06-01: unsafe, against Heel pain under load",
        "Very sure and wrong: a-several on 2026-06-01",
        "How sure, and right: Very sure: 0 of 1, 0 to 79%",
        "Ankle check: first sitting 50%, not passed; passed at sitting 2; sittings that count: 2,",
        "drawn before: 1",
        "Measure an ankle: 1 of 3, 6 to 79%",
        "First visit: 1 of 2 passed, left half way: 1, UNSAFE in 2",
    ):
        assert part in told


def test_a_folder_is_called_one(tmp_path: Path) -> None:
    result = run(tmp_path)
    assert result.exit_code == 1
    assert f"that is a folder; name the files in it, as {tmp_path}/*.json." in result.stderr


def test_every_bad_file_is_named_and_the_rest_still_shown(wren: Path, tmp_path: Path) -> None:
    bad = {
        "broken.json": b"{",
        "foreign.json": WREN.replace(b'"ankle-squat"', b'"tallow-yard"'),
        "hostile.json": raw()[:-1] + b', "__proto__": {}}',
        "large.json": b" " * 16_000_001,
    }
    for name, content in bad.items():
        (tmp_path / name).write_bytes(content)
    result = run(wren, *(tmp_path / name for name in bad), tmp_path / "missing.json", tmp_path)
    assert result.exit_code == 1
    assert "Wren Hollis" in result.stdout
    lines = result.stderr.splitlines()
    assert len(lines) == 6
    for name in (*bad, "missing.json"):
        assert sum(line.startswith(f"{tmp_path / name}: the ") for line in lines) == 1, name
    assert "Traceback" not in result.output


def test_bad_files_alone(tmp_path: Path) -> None:
    (tmp_path / "x.json").write_text("[]")
    for form in ("text", "json", "csv"):
        result = run(tmp_path / "x.json", "--format", form)
        assert result.exit_code == 1
        assert "no learner's record" in result.stderr


def test_wrong_use() -> None:
    assert CliRunner().invoke(casetrue, ["records", "--course", str(ANKLE)]).exit_code == 2
    assert CliRunner().invoke(casetrue, ["records", "x.json", "--course", "nowhere"]).exit_code == 2
    assert run("x.json", "--format", "sarif").exit_code == 2


def test_json_is_one_document(wren: Path, tmp_path: Path) -> None:
    (tmp_path / "x.json").write_text("[]")
    document = json.loads(run(wren, tmp_path / "x.json", "--format", "json").stdout)
    (learner,) = document["learners"]
    assert learner["learner"] == "Wren Hollis"
    assert learner["editions"] == [{"version": "1.0", "build": "0a1b2c3d"}]
    assert learner["quizzes"]["ankle-check"] == {
        "first": 0.5,
        "passed": False,
        "passed_later": 2,
        "sittings": 2,
        "seen_before": 1,
        "left": 0,
    }
    assert learner["exercises"]["first-visit"] == {
        "walks": 2,
        "passed": 1,
        "left": 1,
        "minor_harm": 0,
        "serious_harm": 2,
        "unasked": 0,
    }
    assert learner["objectives"]["measure-ankle"]["of"] == 3
    assert learner["devices"] == ["0a1b2c3d4e5f6071"]
    assert learner["stopped"] == {"stopped": 1, "of": 2, "not": ["rail-06"]}
    assert [one["item"] for one in learner["serious"]] == ["first-visit/rail-06/screen"]
    assert [one["item"] for one in learner["very_sure_and_wrong"]] == ["a-several"]
    assert learner["calibration"]["3"]["of"] == 1
    assert document["refused"][0]["reason"] == "record"


def test_a_spreadsheet_runs_nothing(tmp_path: Path) -> None:
    for number, name in enumerate(("=HYPERLINK(1)", "+1", "-1", "@SUM(1)", "plain, with a comma")):
        (tmp_path / f"{number}.json").write_bytes(raw(attempt(), quiz(0.5, False, 1), learner=name))
    result = run(*sorted(tmp_path.glob("*.json")), "--format", "csv")
    assert result.exit_code == 0
    rows = list(csv.DictReader(result.stdout.splitlines(keepends=True)))
    assert [row["learner"] for row in rows] == [
        "'+1",
        "'-1",
        "'=HYPERLINK(1)",
        "'@SUM(1)",
        "plain, with a comma",
    ]
    assert {row["quiz ankle-check first"] for row in rows} == {"0.5"}
    assert {row["quiz ankle-check passed_later"] for row in rows} == {""}
    assert {row["to_stop"] for row in rows} == {"0"}
    assert {row["objective measure-ankle of"] for row in rows} == {"1"}
    assert {row["exercise first-visit walks"] for row in rows} == {""}
    (tmp_path / "0.json").write_bytes(raw(walk("drill.squat", 2), learner="x"))
    rows = list(csv.DictReader(run(tmp_path / "0.json", "--format", "csv").stdout.splitlines(keepends=True)))
    assert rows[0]["exercise drill.squat passed"] == "1"
    assert [split(cell(sign + "1"), ",")[0] for sign in "\t\r\n"] == ["'\t1", "'\r1", "'\n1"]


def split(line: str, at: str) -> list[str]:
    """The cells that a reader finds who parts them at this sign: Python's csv, of RFC 4180."""
    return [one for row in csv.reader(io.StringIO(line, newline=""), delimiter=at) for one in row]


CELLS = json.loads((Path(__file__).parents[1] / "records" / "cells.json").read_text("utf-8"))


@pytest.mark.parametrize("case", CELLS, ids=[repr(case["value"]) for case in CELLS])
def test_a_cell(case: dict[str, Any]) -> None:
    written = cell(case["value"])
    assert written == case["written"]
    (read,) = split(written, ",") or [""]
    assert read.replace("'", "") == str(case["value"]).replace("'", ""), "nothing is lost"


@pytest.mark.parametrize("at", list(",;\t|"))
@pytest.mark.parametrize("case", CELLS, ids=[repr(case["value"]) for case in CELLS])
def test_no_cell_is_a_formula_wherever_a_line_is_split(case: dict[str, Any], at: str) -> None:
    line = f"{cell('a')},{cell(case['value'])},{cell('b')}\r\n{cell(case['value'])}\r\n"
    for found in split(line, at):
        assert not re.match(r'[ "]*[-=+@]', found), found


def test_what_cannot_be_read_is_told_and_the_rest_counts(tmp_path: Path) -> None:
    bad = [attempt(f"q{number}", mark=7) for number in range(8)]
    (tmp_path / "x.json").write_bytes(raw(attempt("a"), bad[0], attempt("b", mark=0), learner="Wren"))
    (tmp_path / "y.json").write_bytes(raw(*bad, attempt("c"), learner="Wren"))
    result = run(tmp_path / "x.json", tmp_path / "y.json")
    assert result.exit_code == 1
    assert "2 of 3" in result.stdout
    assert result.stderr.splitlines() == [
        f"{tmp_path / file}: attempts that cannot be read and are left out: {told}. The rest counts."
        for file, told in (("x.json", "1 (number 2)"), ("y.json", "8 (number 1, 2, 3, 4, 5, ...)"))
    ]
    document = json.loads(run(tmp_path / "x.json", tmp_path / "y.json", "--format", "json").stdout)
    assert document["refused"] == []
    assert document["left_out"] == [
        {"file": str(tmp_path / "x.json"), "attempts": [2]},
        {"file": str(tmp_path / "y.json"), "attempts": [1, 2, 3, 4, 5, 6, 7, 8]},
    ]


def test_one_learner_under_two_spellings(tmp_path: Path) -> None:
    for number, name in enumerate(("Dee Ellis", "dee  ellis", "Dee\u202e Ellis", "\u3000")):
        (tmp_path / f"{number}.json").write_bytes(raw(attempt(), learner=name))
    files = sorted(tmp_path.glob("*.json"))
    told = " ".join(run(*files).stdout.split())
    assert "Dee Ellis (also dee ellis) 2026-06-01" in told
    assert "(no name: 3.json)" in told
    assert "\u202e" not in told
    one = json.loads(run(*files, "--format", "json").stdout)["learners"][1]
    assert (one["learner"], one["also"]) == ("Dee Ellis", ["dee ellis"])


def test_half_a_sign_in_a_name_is_no_fault(tmp_path: Path) -> None:
    (tmp_path / "x.json").write_bytes(raw(learner="Wr\ud800en"))
    for form in ("text", "json", "csv"):
        result = run(tmp_path / "x.json", "--format", form)
        assert result.exit_code == 0, result.output
        assert "Wren" in result.stdout


def test_no_control_sign_reaches_the_terminal(tmp_path: Path) -> None:
    (tmp_path / "x.json").write_bytes(raw(learner="\x1b[31mred"))
    result = run(tmp_path / "x.json")
    assert result.exit_code == 1
    assert "\x1b" not in result.output


def test_what_cannot_be_true_is_named_and_does_not_count(tmp_path: Path) -> None:
    bad = [
        {**quiz(0.01, True), "at": "2099-01-01T00:00:00.000Z"},
        attempt("a", 1, quiz="no-such-quiz"),
        *[quiz(1, True, number, id=f"gone-{number}") for number in range(5)],
    ]
    (tmp_path / "x.json").write_bytes(raw(*bad, attempt("b", 9), learner="Wren"))
    result = run(tmp_path / "x.json", "--today", "2026-06-01")
    assert result.exit_code == 1
    assert "0 of 2" in result.stdout
    (line,) = result.stderr.splitlines()
    assert line.startswith(f"{tmp_path / 'x.json'}: attempts that cannot be true and do not count: 7 (")
    assert (
        "ankle-check on 2099-01-01: its day has not come yet; a on 2026-06-01: this course has no such"
        in line
    )
    assert line.endswith("; ...).")
    document = json.loads(run(tmp_path / "x.json", "--today", "2026-06-01", "--format", "json").stdout)
    assert len(document["not_counted"]) == 7
    assert document["not_counted"][0] == {
        "file": str(tmp_path / "x.json"),
        "attempt": "ankle-check",
        "at": "2099-01-01T00:00:00.000Z",
        "reason": "future",
    }
    assert document["learners"][0]["quizzes"] == {}
    assert run(tmp_path / "x.json", "--today", "soon").exit_code == 2


def test_a_mark_that_its_answer_does_not_give_is_caught(tmp_path: Path) -> None:
    item = next(item for item in Answers(load(ANKLE).course).bank if item.id == "g-plan.tern-03")
    wrong = next(option.id for option in item.options if option.id != item.key)
    honest = attempt(item.id, 1, digest=item.digest, answer=wrong, mark=0)
    (tmp_path / "x.json").write_bytes(raw(honest))
    assert run(tmp_path / "x.json").exit_code == 0
    (tmp_path / "x.json").write_bytes(raw({**honest, "mark": 1, "right": True}))
    result = run(tmp_path / "x.json")
    assert (result.exit_code, "its mark is not what its answers give" in result.stderr) == (1, True)


def test_answers_to_what_has_another_right_answer_now_count_for_nothing(tmp_path: Path) -> None:
    item = next(item for item in Answers(load(ANKLE).course).bank if item.id == "g-plan.tern-03")
    kept = attempt(item.id, 1, key=item.key_digest, objective=item.objective)
    moved = attempt("first-visit/tern-03/class", 2, kind="step", key="0" * 8, objective=item.objective)
    (tmp_path / "x.json").write_bytes(raw(kept, moved, learner="Wren"))
    result = run(tmp_path / "x.json")
    assert result.exit_code == 0
    assert "1 of 1" in result.stdout
    assert result.stderr == (
        f"{tmp_path / 'x.json'}: answers that count for nothing, since the right answer has changed: 1.\n"
    )


def test_one_device_under_several_names_is_told(tmp_path: Path) -> None:
    for name in ("Wren", "Dee"):
        (tmp_path / f"{name}.json").write_bytes(raw(attempt(), learner=name, device="0a1b2c3d4e5f6071"))
    result = run(*sorted(tmp_path.glob("*.json")))
    assert result.exit_code == 0
    wren, dee = (tmp_path / f"{name}.json" for name in ("Wren", "Dee"))
    assert result.stderr == (
        f"{wren}: all of it stands in {dee} too, under another name. Whose is it?\n"
        "One device, 0a1b2c3d, handed over under several names: Dee, Wren.\n"
    )


def test_a_copy_within_a_later_one_is_told_and_counts_once(tmp_path: Path) -> None:
    whole = {"learner": "Wren", "device": "0a1b2c3d4e5f6071"}
    (tmp_path / "may.json").write_bytes(raw(attempt("a", 1), **whole))
    (tmp_path / "june.json").write_bytes(raw(attempt("a", 1), attempt("b", 2), **whole))
    (tmp_path / "again.json").write_bytes(raw(attempt("a", 1), attempt("b", 2), **whole))
    (tmp_path / "empty.json").write_bytes(raw(**whole))
    (tmp_path / "other.json").write_bytes(raw(attempt("a", 1), learner="Wren", device="f" * 16))
    result = run(*sorted(tmp_path.glob("*.json")), "--format", "json")
    assert json.loads(result.stdout)["doubled"] == [
        {"file": str(tmp_path / "june.json"), "in": str(tmp_path / "again.json")},
        {"file": str(tmp_path / "may.json"), "in": str(tmp_path / "again.json")},
    ]
    assert result.stderr.splitlines()[0] == (
        f"{tmp_path / 'june.json'}: all of it stands in {tmp_path / 'again.json'} too, and counts once."
    )
    assert json.loads(result.stdout)["learners"][0]["objectives"]["measure-ankle"]["of"] == 2


def test_a_copy_of_format_1_is_still_read(tmp_path: Path) -> None:
    first = {**record(old("a"), old("b", 1, mark=0)), "format": 1, "learner": "Wren"}
    (tmp_path / "x.json").write_text(json.dumps(first))
    result = run(tmp_path / "x.json")
    assert result.exit_code == 0
    assert "Wren" in result.stdout
