"""`casetrue records --out`: the owner's pages, where there is much to show and where there is none."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from lxml import html

from builder.answers import Answers
from builder.cli.main import casetrue
from builder.records import Facts
from builder.source import load

from ..conftest import ANKLE
from ..records.make import attempt, quiz, raw, step

HOSTILE = '<img src=x onerror="alert(1)"> & “co”'


def run(*files: Path, out: Path, course: Path = ANKLE, more: tuple[str, ...] = ()) -> Result:
    given = ["records", *map(str, files), "--course", str(course), "--out", str(out), "--today", "2026-06-30"]
    return CliRunner().invoke(casetrue, [*given, *more])


def words(out: Path, name: str = "index.html", part: str = "") -> str:
    page = html.parse(out / name).getroot()
    where = page.xpath(f"//h2[@id='{part}']/..") if part else page.xpath("//main")
    return " ".join(where[0].text_content().split())


def _decided(answer: str, **more: Any) -> dict[str, Any]:
    """What somebody decided about Tern at first; the right answer is `stiff`."""
    place = {
        "client": "tern-03",
        "unit": "plan/stiff",
        "answer": answer,
        "mark": int(answer == "stiff"),
    }
    found = Answers(load(ANKLE).course)
    key = Facts(found).keys["ankle_class"]["stiff"]
    return step("first-visit/tern-03/class", 1, **place, key=key, **more)


@pytest.fixture
def hand_over(tmp_path: Path) -> Any:
    def write(name: str, *attempts: dict[str, Any], **more: Any) -> Path:
        file = tmp_path / f"{name or 'nobody'}.json"
        file.write_bytes(raw(*attempts, learner=name, **more))
        return file

    return write


def test_no_record_is_said_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "broken.json").write_text("{", "utf-8")
    result = run(tmp_path / "broken.json", out=tmp_path / "out")
    assert result.exit_code == 1
    told = words(tmp_path / "out")
    assert "No record could be read, so there is nothing to show." in told
    assert "Hand over to the owner" in told, "and what to ask for"
    assert "A file: the file cannot be read as a record." in told
    assert "nothing was wrong" in words(tmp_path / "out", "wall.html").lower()


def test_one_coach_is_no_team(tmp_path: Path, hand_over: Any) -> None:
    result = run(hand_over("Wren", _decided("stiff")), out=tmp_path / "out")
    assert result.exit_code == 0
    told = words(tmp_path / "out")
    assert "One coach alone: nothing can be said of a team yet." in told
    assert "It takes two coaches to compare." in told
    assert "a figure would tell who it is about" in words(tmp_path / "out", "wall.html")


def test_a_record_without_answers_and_a_course_without_quizzes(
    tmp_path: Path, hand_over: Any, course_folder: Any, small_course: Path
) -> None:
    course = course_folder(
        {"quizzes/ankle-check.yml": None, "quizzes/all-kinds.yml": None}, base=small_course
    )
    run(hand_over("Wren"), hand_over("Dee"), out=tmp_path / "out", course=course)
    assert "This record holds no answers yet." in words(tmp_path / "out", part="helps")
    assert words(tmp_path / "out", part="quizzes") == "Quizzes and tasks This course has no quiz."
    assert "No record tells what a coach decided about a client." in words(tmp_path / "out", part="alike")
    assert "No unsafe answer is in these records." in words(tmp_path / "out", part="unsafe")
    assert "No record holds a first answer that belongs to an objective." in words(
        tmp_path / "out", part="objectives"
    )


def test_few_people_are_said_to_be_few(tmp_path: Path, hand_over: Any) -> None:
    chosen = {"Wren": "stiff", "Dee": "free", "Kim": "free"}
    files = [hand_over(name, _decided(answer)) for name, answer in chosen.items()]
    run(*files, out=tmp_path / "out", more=("--names",))
    told = words(tmp_path / "out", part="alike")
    assert "Of 3 pairs of coaches who decided about the same client, 1 chose alike." in told
    assert "That is few: 3 coaches, 1 clients met by two or more. It says little." in told
    assert "Beyond chance" not in told
    assert "2 of 3 Dee, Kim" in told
    assert "What may mislead: " in told


def test_a_link_leads_to_the_site_where_its_address_is_known(tmp_path: Path, hand_over: Any) -> None:
    file = hand_over("Wren", _decided("free", stopped=False))
    run(file, out=tmp_path / "with", more=("--site", "https://x.example/c/"))
    page = html.parse(tmp_path / "with" / "index.html").getroot()
    links = {link.get("href") for link in page.xpath("//main//a") if "://" in link.get("href")}
    assert "https://x.example/c/clients/tern-03.html" in links
    assert "https://x.example/c/tables/plan.html" in links
    assert all(link.startswith("https://x.example/c/") for link in links)
    run(file, out=tmp_path / "without")
    page = html.parse(tmp_path / "without" / "index.html").getroot()
    assert {link.get("href")[0] for link in page.xpath("//main//a")} == {"#", "w"}
    assert "clients stand here without links" in words(tmp_path / "without", part="helps")


def test_a_hostile_record_stays_text(tmp_path: Path, hand_over: Any) -> None:
    file = hand_over(
        HOSTILE.replace('"', "'"), attempt("q-one", 1, mark=0, unit="plan/gone", objective="gone")
    )
    run(file, out=tmp_path / "out", more=("--names",))
    text = (tmp_path / "out" / "index.html").read_text("utf-8")
    assert "<img" not in text
    assert "<script" not in text
    assert "&lt;img src=x" in text
    assert "content=\"default-src 'none'; style-src 'self'" in text


def test_what_must_be_answered_again_is_named(tmp_path: Path, hand_over: Any) -> None:
    old = attempt("g-plan.tern-03", 1, client="tern-03", key="0" * 8, edition="2026-1", unit="plan/stiff")
    run(hand_over("Wren", old), out=tmp_path / "out", more=("--names",))
    told = words(tmp_path / "out", part="again")
    assert "Wren" in told
    assert "edition 2026-1" in told
    assert "Must look again, since a right answer has changed: 1 of 1: Wren." in words(tmp_path / "out")


def test_a_task_says_who_did_it_and_who_did_not(tmp_path: Path, hand_over: Any) -> None:
    asked = {"task": "ankle-check/3/2026-06-01", "quiz": "ankle-check", "draw": 3}
    late = {**asked, "at": "2026-06-02T00:00:00.000Z"}
    files = [
        hand_over("Wren", quiz(0.5, False, 2, **asked)),
        hand_over("Dee", quiz(0.9, True, 2, **late)),
        hand_over("Kim", attempt("q-one", 1)),
    ]
    run(*files, out=tmp_path / "out", more=("--names",))
    told = words(tmp_path / "out", part="quizzes")
    assert "Asked: Ankle check, draw 3, until Jun 1, 2026" in told
    assert "Dee: 90%, passed, Jun 2, 2026, after the day" in told
    assert "Wren: 50%, not passed, Jun 1, 2026" in told
    assert "Not handed over: 1 of 3: Kim." in told


def test_the_sheets_hold_no_names_unless_asked_for(tmp_path: Path, hand_over: Any) -> None:
    file = hand_over("Wren", _decided("stiff"), device="0a1b2c3d4e5f6071")
    run(file, out=tmp_path / "out")
    (row,) = csv.DictReader(io.StringIO((tmp_path / "out" / "coaches.csv").read_text("utf-8")))
    assert (row["files"], row["devices"]) == ("", "")
    assert row["learner"] != "Wren"
    rows = list(csv.DictReader(io.StringIO((tmp_path / "out" / "decisions.csv").read_text("utf-8"))))
    assert {(one["outcome"], one["coaches"], one["of"]) for one in rows if one["coaches"] != "0"} == {
        ("stiff", "1", "1")
    }
    assert [one["outcome"] for one in rows if one["right"] == "True"] == ["stiff"]
    run(file, out=tmp_path / "out", more=("--names",))
    (row,) = csv.DictReader(io.StringIO((tmp_path / "out" / "coaches.csv").read_text("utf-8")))
    assert (row["learner"], row["devices"]) == ("Wren", "0a1b2c3d")


def test_the_same_records_give_the_same_bytes_and_replace_the_former_pages(
    tmp_path: Path, hand_over: Any
) -> None:
    file = hand_over("Wren", attempt("q-one", 1, mark=0, sure=3))
    for name in ("a", "b"):
        run(file, out=tmp_path / name)
    ours = {one.name: one.read_bytes() for one in (tmp_path / "a").iterdir()}
    assert ours == {one.name: one.read_bytes() for one in (tmp_path / "b").iterdir()}
    assert sorted(ours) == [
        ".casetrue",
        "coaches.csv",
        "decisions.csv",
        "index.html",
        "look.css",
        "wall.html",
    ]
    assert run(file, out=tmp_path / "a").exit_code == 0


def test_what_others_wrote_is_left_alone(tmp_path: Path, hand_over: Any, small_course: Path) -> None:
    file = hand_over("Wren", attempt("q-one", 1))
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("x", "utf-8")
    for out in (tmp_path / "mine", small_course / "pages", small_course.parent):
        result = run(file, out=out, course=small_course)
        assert result.exit_code == 2, result.output
        assert "Error:" in result.stderr
    assert (tmp_path / "mine" / "letter.txt").read_text("utf-8") == "x"


def test_names_and_site_need_a_folder(tmp_path: Path, hand_over: Any) -> None:
    file = hand_over("Wren")
    for more in (["--names"], ["--site", "https://x.example/"]):
        result = CliRunner().invoke(casetrue, ["records", str(file), "--course", str(ANKLE), *more])
        assert result.exit_code == 2
        assert "give --out DIR too" in result.stderr


def test_json_tells_the_team_beside_the_pages(tmp_path: Path, hand_over: Any) -> None:
    file = hand_over("Wren", attempt("q-made", 1, mark=0, unit="question:q-made"))
    result = run(file, out=tmp_path / "out", more=("--format", "json"))
    told = json.loads(result.stdout)
    assert set(told["team"]) == {"to_teach", "unsafe", "decisions", "tasks"}
    assert told["learners"][0]["helps"][0]["thing"] == "question:q-made"
    assert (tmp_path / "out" / "index.html").is_file()
