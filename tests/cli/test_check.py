from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from ..examples.reading import BAD, GOOD, read

GAP = read(BAD / "table-gap.txt")


def test_a_clean_course_exits_with_0(run):
    result = run("check", "--course", GOOD / "plain")
    assert (result.exit_code, result.stdout) == (
        0,
        "Quiz check can ask about 1 of 2 clients.\n"
        "Quiz check is passed by people who know nothing: under 1 in 100,000 picking \n"
        "blindly, under 1 in 100,000 always picking the longest option, under 1 in \n"
        "100,000 always sending on.\n"
        "No problem found.\n",
    )


def test_warnings_alone_exit_with_0(run, small_course: Path):
    result = run("check", "--course", small_course)
    assert result.exit_code == 0
    assert result.stdout.endswith("0 errors and 1 warning.\n")


def test_errors_exit_with_1(run, tmp_path: Path):
    result = run("check", "--course", GAP.write(tmp_path / "course"))
    assert result.exit_code == 1
    assert "tables/ankle_class.yml, line 6, column 1" in result.stdout
    assert result.stdout.endswith("1 error and 0 warnings. More may show once the error is mended.\n")


@pytest.mark.parametrize(
    "arguments",
    [
        ["--course", "no-such-folder"],
        ["--format", "xml"],
        ["--today", "tomorrow"],
        ["--today", "2026-02-30"],
        ["--today", "20260601"],
        ["extra"],
    ],
)
def test_wrong_use_exits_with_2_and_says_nothing_on_standard_output(run, arguments: list[str]):
    result = run("check", *arguments)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr


def test_a_folder_without_a_course_exits_with_2(run, tmp_path: Path):
    assert run("check", "--course", tmp_path).exit_code == 2


def test_json_is_one_document_even_for_a_broken_course(run, tmp_path: Path, course_folder):
    course = course_folder(
        {
            "course.yml": b"\xff\xfe not text",
            "measures.yml": "- [}",
            "tables/a.yml": "&a [*a, *a]",
            "cases/c.yml": "",
            "odd.bin": b"\x00",
        }
    )
    result = run("check", "--course", course, "--format", "json")
    assert result.exit_code == 1
    document = json.loads(result.stdout)
    assert document["counts"]["error"] >= 3
    assert result.stderr == ""


def test_json_gives_a_client_for_a_proof(run, tmp_path: Path):
    result = run("check", "--course", GAP.write(tmp_path / "course"), "--format", "json")
    (problem,) = json.loads(result.stdout)["problems"]
    assert problem["example"] == {"ankle": 35}
    assert (problem["subject"], problem["line"]) == ("table:ankle_class", 6)


def test_other_formats(run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    course = GAP.write(tmp_path / "course")
    monkeypatch.chdir(tmp_path)
    github = run("check", "--course", "course", "--format", "github")
    assert github.stdout.startswith(
        "::error file=course/tables/ankle_class.yml,line=6,col=1,title=table-gap::"
    )
    sarif = json.loads(run("check", "--course", course, "--format", "sarif").stdout)
    assert sarif["runs"][0]["results"][0]["ruleId"] == "table-gap"


@pytest.mark.parametrize(
    ("arguments", "epoch", "due"),
    [
        (["--today", "2027-01-02"], "0", True),
        (["--today", "2027-01-01"], "2000000000", False),
        ([], "2000000000", True),
        ([], "1780272000", False),
    ],
)
def test_the_day_is_given_or_the_epoch(run, monkeypatch, arguments: list[str], epoch: str, due: bool):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)
    result = run("check", "--course", GOOD / "with-cautions", *arguments)
    assert ("review-due" in result.stdout) is due


def test_an_epoch_that_is_no_number_is_wrong_use(run, monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "soon")
    assert run("check", "--course", GOOD / "plain").exit_code == 2


def test_the_clock_is_asked_last(run, monkeypatch):
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    assert run("check", "--course", GOOD / "plain").exit_code == 0


@pytest.mark.parametrize("form", ["text", "json", "github", "sarif"])
def test_the_same_bytes_whatever_the_hash_seed(form: str, tmp_path: Path):
    course = read(BAD / "missing-reference-many.txt").write(tmp_path / "course")
    command = [sys.executable, "-m", "builder.cli", "check", "--course", str(course), "--format", form]
    outputs = {
        subprocess.run(
            command,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(Path(__file__).parents[2])},
            capture_output=True,
            check=False,
        ).stdout
        for seed in ("0", "1")
    }
    assert len(outputs) == 1
    assert outputs.pop()


def test_how_often_those_pass_who_know_nothing(run, course_folder, small_course: Path):
    quiz = "quiz: easy\ntitle: Easy\npass_mark: 0.5\nquestions: [q-one, q-number]\n"
    course = course_folder({"quizzes/easy.yml": quiz}, base=small_course)
    told = " ".join(run("check", "--course", course).stdout.split())
    assert "Quiz easy is passed by people who know nothing: 33% picking blindly, " in told
    assert "Someone who picks blindly passes easy 33 times in 100." in told
